import { convertLength } from '../../book/measures/measure.ts';
import type { Settings } from '../../book/settings.ts';
import { showNumber, showTrimmed } from '../../sheets/showValue.ts';
import type { ListedPrice, ListedSize, PriceList } from './priceList.ts';

/** The words of a list, the same on the page, in the workbook and in CSV. */
export function listTitle({ kind }: PriceList): string {
  return kind === 'line sheet' ? 'Line sheet' : 'Price list';
}

const days = new Intl.DateTimeFormat('en-GB', { dateStyle: 'long', timeZone: 'UTC' });

/** `Valid from 1 December 2026`. */
export function validFrom(list: PriceList): string {
  return `Valid from ${days.format(new Date(`${list.validFrom}T00:00:00Z`))}`;
}

/** What a buyer has to know before reading a price, a sentence each. */
export function listSentences(list: PriceList, settings: Settings): readonly string[] {
  const { currency, leastOrder, tradeDiscount, breaksFrom } = list;
  return [
    `Prices are in ${currency}, for one piece.`,
    taxSentence(list, settings),
    ...(tradeDiscount === null
      ? []
      : [
          `Trade prices are the list prices less ${percentText(tradeDiscount, settings)}. Shops set their own prices.`,
        ]),
    ...(breaksFrom.length === 0
      ? []
      : [
          'A price from so many pieces is for each of them, of one product in one order; its sizes count together.',
        ]),
    ...(hasMeasures(list) ? ['The measure beside a size is that of the body, taken snug with a tape.'] : []),
    ...(leastOrder === null ? [] : [`Least order: ${moneyText(leastOrder, settings)} ${currency} of goods.`]),
  ];
}

/** How the prices stand to tax. A rate of zero says what the book says, and no more. */
export function taxSentence({ tax }: PriceList, settings: Settings): string {
  const { name, included, ratio } = tax;
  if (included && ratio > 0) return `Prices include ${name} of ${percentText(ratio, settings)}.`;
  if (included) return `Nothing is added to these prices for ${name}.`;
  if (ratio > 0) return `Prices are without ${name}; ${percentText(ratio, settings)} is added.`;
  return `Prices are without ${name}, which is added where it is due.`;
}

/** A column of prices. */
export interface PriceColumn {
  /** The list price, the price of one, or that of so many. */
  readonly kind: 'list' | 'one' | 'many';
  readonly heading: string;
  readonly price: (row: ListedPrice) => number | null;
  /** Whether the price is the one of the column before it, where fewer pieces are bought. */
  readonly isAsBefore: (row: ListedPrice) => boolean;
}

/** Columns of prices: the list price for the trade, the price of one, and those of many. */
export function priceColumns(list: PriceList, settings: Settings): readonly PriceColumn[] {
  const isTrade = list.kind === 'line sheet';
  const never = (): boolean => false;
  return [
    ...(isTrade
      ? [
          {
            kind: 'list' as const,
            heading: 'List price',
            price: (row: ListedPrice) => row.listPrice,
            isAsBefore: never,
          },
        ]
      : []),
    {
      kind: 'one',
      heading: isTrade ? 'Trade price' : 'Price',
      price: (row: ListedPrice) => row.price,
      isAsBefore: never,
    },
    ...list.breaksFrom.map((pieces, at) => ({
      kind: 'many' as const,
      heading: `From ${showTrimmed(pieces, 0, settings)}`,
      price: (row: ListedPrice) => row.breakPrices[at] ?? row.price,
      isAsBefore: (row: ListedPrice) => row.breakPrices[at] === (row.breakPrices[at - 1] ?? row.price),
    })),
  ];
}

export function moneyText(amount: number, settings: Settings): string {
  return showNumber(amount, settings.currencyDigits, settings);
}

function percentText(ratio: number, settings: Settings): string {
  return `${showTrimmed(100 * ratio, 3, settings)} %`;
}

/** Whether anything on the list has a size to show. */
export function hasSizes({ families }: PriceList): boolean {
  return families.some(({ products }) =>
    products.some(({ prices }) =>
      prices.some(({ sizes }) => sizes.some((each) => each.size !== '' || each.fitsToMm !== null)),
    ),
  );
}

function hasMeasures({ families }: PriceList): boolean {
  return families.some(({ products }) =>
    products.some(({ prices }) => prices.some(({ sizes }) => sizes.some((each) => each.fitsToMm !== null))),
  );
}

/** A size and the measure that it is made for; the measure is blank where the size says the same. */
export function sizeWords(
  { size, fitsFromMm, fitsToMm }: ListedSize,
  settings: Settings,
): { readonly size: string; readonly fits: string } {
  if (fitsToMm === null) return { size, fits: '' };
  const to = measureText(fitsToMm, settings);
  const from = fitsFromMm === null ? '0' : measureText(fitsFromMm, settings);
  const fits = `${from === to ? '' : `${from} to `}${to} ${settings.lengthUnit}`;
  return { size, fits: fits === size ? '' : fits };
}

/** Sixteenths of an inch, as a tape shows them; elsewhere the millimetre. */
const parts = 16;

/** A measure without its unit, as people read it off a tape: `5 3/4`, `18.5`. */
export function measureText(lengthMm: number, settings: Settings): string {
  const unit = settings.lengthUnit;
  const length = convertLength(lengthMm, 'mm', unit);
  if (unit !== 'in') return showTrimmed(length, unit === 'cm' ? 1 : 0, settings);
  const sixteenths = Math.round(length * parts);
  if (Math.abs(length * parts - sixteenths) > 0.01) return showTrimmed(length, 2, settings);
  const whole = Math.floor(sixteenths / parts);
  let top = sixteenths - whole * parts;
  let bottom = parts;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return showTrimmed(whole, 0, settings);
  return whole === 0 ? `${top}/${bottom}` : `${showTrimmed(whole, 0, settings)} ${top}/${bottom}`;
}
