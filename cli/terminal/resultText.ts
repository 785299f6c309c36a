import {
  type FoundResult,
  type PriceRule,
  type Settings,
  showTrimmed,
  showValue,
} from '../../engine/index.ts';

/** A result as its sheet shows it. */
export function resultText(value: number | null, { kind }: FoundResult, settings: Settings): string {
  return value === null || Number.isNaN(value) ? '-' : showValue(value, kind, settings);
}

/** With the digits that tell two results apart which its sheet shows alike. */
export function fineText(value: number, { kind }: FoundResult, settings: Settings): string {
  return kind === 'percent' ? `${showTrimmed(value * 100, 6, settings)} %` : showTrimmed(value, 6, settings);
}

/** `Margin of fob short at stall`, with what it is counted in: `Month's profit, USD per month`. */
export function resultTitle({ name, unit }: FoundResult): string {
  return `${capital(name)}${unit === '' ? '' : `, ${unit}`}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What asking prices do meanwhile. */
export function pricesText(prices: PriceRule): string {
  return prices === 'held'
    ? 'Asking prices stay as they are today (--prices follow lets them go with their cost).'
    : 'Asking prices that are not set by hand go with their cost (--prices held keeps today’s).';
}
