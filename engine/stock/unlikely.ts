import { joinKeys, sameKey } from '../book/book.ts';
import { dayText } from '../book/measures/day.ts';
import type { Place, Problem } from '../book/problems/problem.ts';
import { farFrom, unlikely } from '../book/problems/unlikely.ts';
import type { Values } from '../calc/values.ts';
import { rowCount, textOf } from '../cutting/supplies.ts';
import { type Exact, moneyOf } from '../money/exact.ts';
import type { Plan } from '../sheets/plan.ts';
import { showTrimmed, showValue } from '../sheets/showValue.ts';
import type { StockLedger } from './stockLedger.ts';

/** From so many rows on, and more than half of all, it is rather the plan that they are held against that has the slip. */
const many = 5;

/**
 * What can be true and is more often a slip: days that are still to come, more back than was sold, a price or a time
 * five times what the book plans, a count that is off by more than half. To look at, never an error.
 *
 * @param today the day of looking, as spreadsheets count days; without it nothing is in the future
 */
export function unlikelyEntries(
  ledger: StockLedger,
  plan: Plan,
  values: Values,
  today: number = Number.POSITIVE_INFINITY,
): Problem[] {
  return [
    ...inTheFuture(ledger, today),
    ...moreBackThanSold(ledger),
    ...farFromPlan(ledger, plan, values),
    ...farCounts(ledger, plan),
  ];
}

function inTheFuture(ledger: StockLedger, today: number): Problem[] {
  const dated = [...ledger.purchases, ...ledger.produced, ...ledger.sold, ...ledger.counted];
  const others = ledger.moves.filter(({ place }) => place.file === 'used.csv');
  const told = new Set<Place>();
  return [...dated, ...others].flatMap(({ day, place }) => {
    if (day <= today || told.has(place)) return [];
    told.add(place);
    return [
      unlikely(
        { ...place, column: 'date' },
        `${dayText(day)} is still to come.`,
        dayText(day),
        `a day until ${dayText(today)}`,
        'Correct the date, or leave it if the row was entered ahead.',
      ),
    ];
  });
}

function moreBackThanSold({ sold }: StockLedger): Problem[] {
  const out = new Map<string, number>();
  const lines = [...sold].sort((one, other) => one.day - other.day || other.pieces - one.pieces);
  return lines.flatMap((line) => {
    const key = joinKeys([line.product, line.channel]);
    const before = Math.max(out.get(key) ?? 0, 0);
    out.set(key, before + line.pieces);
    if (line.pieces >= 0 || before + line.pieces >= 0) return [];
    return [
      unlikely(
        { ...line.place, column: 'pieces' },
        `More of ${line.product} came back from ${line.channel} than was sold there until ${dayText(line.day)}.`,
        String(-line.pieces),
        `${before} at most`,
        'Correct the row, or enter the sale that is missing.',
      ),
    ];
  });
}

function farFromPlan(ledger: StockLedger, plan: Plan, values: Values): Problem[] {
  const { settings } = plan;
  const { currency } = settings;
  const money = (coins: number, by: number): number => moneyOf(coins, settings.currencyDigits) / by;
  const asked = new Map<string, number>();
  for (let row = 0; row < rowCount(plan, 'prices'); row += 1) {
    const key = joinKeys([
      textOf(values, 'prices', 'product', row),
      textOf(values, 'prices', 'channel', row),
    ]);
    asked.set(key, values.number('prices', 'asking', row));
  }
  const items = new Map(ledger.items.map((each) => [sameKey(each.item), each]));
  const perUnit = (value: number, unit: string | undefined): string =>
    `${showValue(value, 'money_per_unit', settings)} ${currency} ${unit === settings.cordUnit ? `per ${unit}` : 'each'}`;
  const differs = (
    where: Place,
    what: string,
    found: number,
    planned: number | undefined,
    said: (value: number) => string,
  ): Problem[] => {
    if (planned === undefined || planned <= 0 || found <= 0) return [];
    const off = farFrom(found, planned);
    if (off === undefined) return [];
    return [
      unlikely(
        where,
        `${what} is ${off} what the book plans.`,
        said(found),
        `about ${said(planned)}`,
        'Look for a slip in the quantity or the amount; leave it if it is right.',
      ),
    ];
  };
  const asMoney = (value: number): string => `${showValue(value, 'money', settings)} ${currency}`;
  const asHours = (value: number): string => `${showTrimmed(value, 3, settings)} hours`;
  return [
    ...together(
      ledger.sold.flatMap((line) =>
        differs(
          { ...line.place, column: 'takings' },
          `What a piece of ${line.product} brought`,
          money(line.takingsCoins, line.pieces),
          asked.get(joinKeys([line.product, line.channel])),
          asMoney,
        ),
      ),
      ledger.sold.length,
      'what a piece brought',
    ),
    ...together(
      ledger.purchases.flatMap((line) => {
        const item = items.get(sameKey(line.material));
        return differs(
          { ...line.place, column: 'amount' },
          `The cost of ${line.material}`,
          money(line.landedCoins, line.quantity.toNumber()),
          item?.standardUnit.toNumber(),
          (value) => perUnit(value, item?.unit),
        );
      }),
      ledger.purchases.length,
      'what a material cost',
    ),
    ...together(
      ledger.produced.flatMap((line) =>
        differs(
          { ...line.place, column: 'bench_hours' },
          `The time for ${line.product}`,
          line.hours.toNumber(),
          line.standardHours.toNumber(),
          asHours,
        ),
      ),
      ledger.produced.length,
      'the time for pieces',
    ),
  ];
}

/** One finding in place of many, where most rows of a table are far off alike. */
function together(found: readonly Problem[], rows: number, what: string): readonly Problem[] {
  const [first] = found;
  if (first === undefined || found.length < many || found.length * 2 <= rows) return found;
  return [
    unlikely(
      first.where,
      `In ${found.length} of ${rows} rows of ${first.where.file} ${what} is far from what the book plans. This is the first of them.`,
      first.found ?? '',
      first.accepted ?? '',
      'Look for a slip in the book, such as the wage, a pack price or minutes of work; leave it if book and rows are right.',
    ),
  ];
}

function farCounts({ counted }: StockLedger, { settings }: Plan): Problem[] {
  const said = (quantity: Exact): string => showTrimmed(quantity.toNumber(), 2, settings);
  return counted.flatMap((line) => {
    const off = line.counted.minus(line.byBook).abs();
    // A few pieces more or less are soon half of what is there.
    if (line.isOpening || off.lte(line.byBook.abs().div(2)) || off.lte(2)) return [];
    return [
      unlikely(
        { ...line.place, column: 'quantity' },
        `The count of ${line.item} is off by more than half of what should be there.`,
        said(line.counted),
        `about ${said(line.byBook)}`,
        'Count again, or look for a purchase, a sale or a row of made.csv that is missing.',
      ),
    ];
  });
}
