import type { Settings } from '../../book/settings.ts';
import { showTrimmed, showValue } from '../../sheets/showValue.ts';
import type { Shown } from './charts/ladderChart.ts';

/** How the book writes its figures. */
export function shownIn(settings: Settings): Shown {
  return {
    currency: settings.currency,
    money: (value) => showValue(value, 'money', settings),
    axis: (value) => showTrimmed(value, settings.currencyDigits, settings),
    share: (ratio) => showValue(ratio, 'percent', settings),
  };
}

/** Per cents on an axis, from a ratio. */
export function axisShare(settings: Settings): (ratio: number) => string {
  return (ratio) => `${showTrimmed(ratio * 100, 1, settings)} %`;
}

/** `1 price`, `2 prices`. */
export function counted(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The largest or smallest of some by a figure of theirs; undefined where there are none. */
export function extreme<Each>(
  some: readonly Each[],
  figure: (each: Each) => number,
  which: 'most' | 'least',
): Each | undefined {
  const sign = which === 'most' ? 1 : -1;
  return some.reduce<Each | undefined>(
    (best, each) => (best === undefined || sign * figure(each) > sign * figure(best) ? each : best),
    undefined,
  );
}
