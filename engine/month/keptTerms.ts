import { sameKey } from '../book/book.ts';
import { exact } from '../money/exact.ts';
import type { StockLedger } from '../stock/stockLedger.ts';
import type { Terms } from '../stock/terms.ts';
import { type MonthFigure, termsPart } from './closedMonth.ts';
import type { ChannelFact } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';

/*
 * Wage, tax, fees and what a piece takes have no date in the book. A closed month keeps those that it was reckoned
 * with, so that tomorrow's wage does not change what October has cost.
 */

const minutes = 'bench minutes a piece';
const takes = 'takes of ';
const unreclaimed = 'tax not reclaimed';
const exchange = 'exchange rate';
const general = {
  wage: 'an hour',
  onCosts: 'with on-costs, of the wage',
  overheadPerHour: 'overhead of an hour',
} as const;
const ofChannel = {
  taxRatio: 'tax rate',
  feeOnNet: 'fees on net',
  feeOnGross: 'fees with tax',
  feeFixed: 'fixed fees of a piece',
  piecesPerOrder: 'pieces in an order',
  postagePaid: 'postage of an order',
} as const;
const includesTax = 'prices include tax';

/** What a month was reckoned with: of the products, materials and channels that have a part in it. */
export function termFigures(
  month: MonthPeriod,
  ledger: StockLedger,
  channels: readonly ChannelFact[],
): MonthFigure[] {
  const terms = ledger.termsOn(month.first);
  const inMonth = ({ day }: { readonly day: number }): boolean => day >= month.first && day <= month.last;
  const figures: MonthFigure[] = [];
  const keep = (name: string, figure: string, value: string): void => {
    figures.push({ part: termsPart, name, figure, value });
  };
  for (const [id, figure] of Object.entries(general))
    keep('wage', figure, terms[id as keyof typeof general].toFixed());
  for (const product of new Set(ledger.produced.filter(inMonth).map((line) => line.product))) {
    const each = terms.minutesEach.get(sameKey(product));
    if (each !== undefined) keep(product, minutes, each.toFixed());
    for (const { material, quantity } of terms.needs.get(sameKey(product)) ?? [])
      keep(product, `${takes}${material}`, quantity.toFixed());
  }
  const bought = ledger.purchases.filter(inMonth);
  for (const material of new Set(bought.map((line) => line.material))) {
    const ratio = terms.unreclaimedTax.get(sameKey(material));
    if (ratio !== undefined) keep(material, unreclaimed, exact(ratio).toFixed());
  }
  for (const [currency, rate] of terms.exchange) keep(currency, exchange, rate.toFixed());
  for (const channel of channels) {
    keep(channel.channel, includesTax, channel.includesTax ? 'yes' : 'no');
    for (const [id, figure] of Object.entries(ofChannel))
      keep(channel.channel, figure, exact(channel[id as keyof typeof ofChannel]).toFixed());
  }
  return figures;
}

/** The terms of a closed month: as it keeps them, and as they are today for what it knows nothing of. */
export function keptTerms(figures: readonly MonthFigure[], today: Terms): Terms {
  const own = figures.filter(({ part }) => part === termsPart);
  const found = (name: string, figure: string): string | undefined =>
    own.find((each) => each.name === name && each.figure === figure)?.value;
  const named = (figure: string): (readonly [string, string])[] =>
    own.filter((each) => each.figure === figure).map(({ name, value }) => [name, value]);
  const products = named(minutes);
  const rate = (id: keyof typeof general) => exact(found('wage', general[id]) ?? today[id]);
  return {
    wage: rate('wage'),
    onCosts: rate('onCosts'),
    overheadPerHour: rate('overheadPerHour'),
    minutesEach: new Map([
      ...today.minutesEach,
      ...products.map(([product, value]) => [sameKey(product), exact(value)] as const),
    ]),
    needs: new Map([
      ...today.needs,
      ...products.map(
        ([product]) =>
          [
            sameKey(product),
            own
              .filter(({ name, figure }) => name === product && figure.startsWith(takes))
              .map(({ figure, value }) => ({
                material: figure.slice(takes.length),
                quantity: exact(value),
              })),
          ] as const,
      ),
    ]),
    unreclaimedTax: new Map([
      ...today.unreclaimedTax,
      ...named(unreclaimed).map(([material, value]) => [sameKey(material), Number(value)] as const),
    ]),
    exchange: new Map([
      ...today.exchange,
      ...named(exchange).map(([currency, value]) => [currency, exact(value)] as const),
    ]),
  };
}

/** What channels took when the month was closed; as today for a channel that it does not know. */
export function keptChannels(
  figures: readonly MonthFigure[],
  today: readonly ChannelFact[],
): readonly ChannelFact[] {
  const own = new Map(
    figures
      .filter(({ part }) => part === termsPart)
      .map(({ name, figure, value }) => [`${sameKey(name)}|${figure}`, value]),
  );
  return today.map((channel) => {
    const kept = (figure: string): string | undefined => own.get(`${sameKey(channel.channel)}|${figure}`);
    if (kept(includesTax) === undefined) return channel;
    const number = (id: keyof typeof ofChannel): number => Number(kept(ofChannel[id]) ?? channel[id]);
    return {
      channel: channel.channel,
      includesTax: kept(includesTax) === 'yes',
      taxRatio: number('taxRatio'),
      feeOnNet: number('feeOnNet'),
      feeOnGross: number('feeOnGross'),
      feeFixed: number('feeFixed'),
      piecesPerOrder: number('piecesPerOrder'),
      postagePaid: number('postagePaid'),
    };
  });
}
