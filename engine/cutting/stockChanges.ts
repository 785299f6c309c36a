import { sameKey } from '../book/book.ts';
import { parseCsv } from '../book/csvFile.ts';
import { editRows } from '../book/editRows.ts';
import { convertLength, parseMeasure } from '../book/measure.ts';
import { numberText } from '../book/numberText.ts';
import type { Settings } from '../book/settings.ts';
import type { Values } from '../calc/values.ts';
import { roundTo } from '../money/rounding.ts';
import type { Plan } from '../sheets/plan.ts';
import type { CutReport, PartNeed, Purchase } from './cutReport.ts';
import { stockLengthText } from './stockLengthText.ts';
import { rowCount, textOf } from './supplies.ts';

/** What a batch changes in stock.csv: one row of it before and after, in the book's own notation. */
export interface StockChange {
  readonly material: string;
  /** The row before, as a spreadsheet program counts; null for one that is added. */
  readonly row: number | null;
  /** Such as "1 x 640 ft spool"; blank where the row is new. */
  readonly before: string;
  /** Blank where nothing is left of it, and the row goes. */
  readonly after: string;
}

/** A row of stock.csv while it is being changed. */
interface Lot {
  readonly material: string;
  readonly row: number | null;
  holds: number;
  count: number;
  kind: string;
  /** Per cord unit or piece; null for what the material's own pack costs. */
  cost: number | null;
  readonly first: {
    readonly holds: number;
    readonly count: number;
    readonly kind: string;
    readonly cost: number | null;
  };
}

/** Lengths closer than this (in the cord unit) are written alike, and one row must hold them. */
const sameLength = 0.0011;

/**
 * Takes a solved batch off the stock: what is cut is shortened or gone, ends that are long enough come back at
 * the cost of what they were cut from, and what is left of bought packs is added.
 *
 * @param text of the book's stock.csv; undefined where there is none
 * @param plan the book without a batch, and its values: what the report was made from
 */
export function stockChanges(
  text: string | undefined,
  plan: Plan,
  values: Values,
  report: CutReport,
): { readonly text: string; readonly changes: readonly StockChange[] } {
  const { settings } = plan;
  const lots = lotsOf(plan, values);
  const added: Lot[] = [];
  const add = (material: string, holds: number, count: number, kind: string, cost: number | null): void => {
    if (count > 0 && holds > 0) added.push(lot(material, null, holds, count, kind, cost));
  };
  takeCords(plan, values, report, lots, add);
  for (const part of report.parts) takePieces(part, lots, add, ownCost(plan, values, part.material));
  const kept = merged(lots, added, plan, values);
  return written(text, lots, kept, plan, settings);
}

function lot(
  material: string,
  row: number | null,
  holds: number,
  count: number,
  kind: string,
  cost: number | null,
): Lot {
  return { material, row, holds, count, kind, cost, first: { holds, count, kind, cost } };
}

function lotsOf(plan: Plan, values: Values): Lot[] {
  const sheet = plan.sheets.find(({ id }) => id === 'stock');
  return Array.from({ length: rowCount(plan, 'stock') }, (_, row) => {
    const cost = values.get('stock', 'cost_set', row);
    return lot(
      textOf(values, 'stock', 'material', row),
      sheet?.places[row]?.row ?? null,
      values.number('stock', 'length', row),
      values.number('stock', 'count', row),
      textOf(values, 'stock', 'kind', row),
      typeof cost === 'number' ? cost : null,
    );
  });
}

type Add = (material: string, holds: number, count: number, kind: string, cost: number | null) => void;

function takeCords(plan: Plan, values: Values, report: CutReport, lots: readonly Lot[], add: Add): void {
  const toCord = (mm: number): number => convertLength(mm, 'mm', plan.settings.cordUnit);
  for (const cord of report.cords) {
    const own = ownCost(plan, values, cord.material);
    const opened = new Map<Purchase, number>();
    const ends: { readonly from: Lot; readonly holds: number; readonly times: number }[] = [];
    for (const stock of cord.stock) {
      const left = stock.leftIs === 'kept' ? toCord(stock.leftMm) : 0;
      if (stock.stockRow !== null) {
        const from = lots[stock.stockRow];
        if (from === undefined) throw new Error(`No row ${stock.stockRow} of stock`);
        from.count -= stock.times;
        if (left > 0) ends.push({ from, holds: left, times: stock.times });
        continue;
      }
      const bought = cord.buy.find((each) => Math.abs((each.packMm ?? 0) - stock.stockMm) < 0.002);
      if (bought === undefined) throw new Error(`A pack of ${cord.material} is cut that is not bought`);
      opened.set(bought, (opened.get(bought) ?? 0) + stock.times);
      add(
        cord.material,
        left,
        stock.times,
        'spool',
        costBeside(own, paidEach(bought, toCord(bought.packMm ?? 1))),
      );
    }
    for (const { from, holds, times } of ends) {
      // A spool stays one, and so does an offcut; what is cut off a hank is no hank any more.
      const kind = from.first.kind === 'hank' ? 'offcut' : from.first.kind;
      if (from.count === 0 && from.row !== null) {
        // Nothing whole is left in this row: it is shortened.
        from.holds = holds;
        from.count = times;
        from.kind = kind;
      } else add(from.material, holds, times, kind, from.cost);
    }
    for (const bought of cord.buy) {
      const holds = toCord(bought.packMm ?? 0);
      const whole = bought.packs - (opened.get(bought) ?? 0);
      add(cord.material, holds, whole, 'spool', costBeside(own, paidEach(bought, holds)));
    }
  }
}

/** Pieces are taken from the first boxes first, and then from what is bought. */
function takePieces(part: PartNeed, lots: readonly Lot[], add: Add, own: number): void {
  let rest = part.pieces;
  const open = (holds: number, count: number): { readonly whole: number; readonly left: number } => {
    const taken = Math.min(rest, holds * count);
    const emptied = Math.floor(taken / holds + 1e-9);
    const begun = taken - emptied * holds > 1e-9;
    rest -= taken;
    return { whole: count - emptied - (begun ? 1 : 0), left: begun ? holds - (taken - emptied * holds) : 0 };
  };
  for (const from of lots) {
    if (rest <= 0) break;
    if (sameKey(from.material) !== sameKey(part.material) || from.count === 0) continue;
    const { whole, left } = open(from.holds, from.count);
    from.count = whole;
    if (left === 0) continue;
    if (whole > 0) add(from.material, left, 1, from.kind, from.cost);
    else {
      from.holds = left;
      from.count = 1;
    }
  }
  for (const bought of part.buy) {
    const holds = bought.packPieces ?? 0;
    const cost = costBeside(own, paidEach(bought, holds));
    const { whole, left } = open(holds, bought.packs);
    add(part.material, holds, whole, 'box', cost);
    add(part.material, left, 1, 'box', cost);
  }
}

function ownCost(plan: Plan, values: Values, material: string): number {
  for (let row = 0; row < rowCount(plan, 'materials'); row += 1)
    if (sameKey(textOf(values, 'materials', 'material', row)) === sameKey(material))
      return values.number('materials', 'landed_pack', row) / values.number('materials', 'pack', row);
  return 0;
}

function paidEach(bought: Purchase, holds: number): number {
  return bought.costEach / holds;
}

/** A cost that is the material's own is left blank, and goes on following it. */
function costBeside(own: number, cost: number): number | null {
  return Math.abs(cost - own) <= 1e-9 * Math.max(own, cost) ? null : cost;
}

/** Rows of one material, length and kind become one, at the cost of both together. Returns the rows to add. */
function merged(lots: readonly Lot[], added: readonly Lot[], plan: Plan, values: Values): Lot[] {
  const kept: Lot[] = [];
  const join = (into: Lot, from: Lot): void => {
    if (into.cost !== from.cost) {
      const own = ownCost(plan, values, into.material);
      const all = into.count + from.count;
      into.cost = costBeside(own, ((into.cost ?? own) * into.count + (from.cost ?? own) * from.count) / all);
    }
    into.count += from.count;
    if (into.holds - from.holds > 1e-9) into.holds = from.holds;
    from.count = 0;
  };
  const alike = (one: Lot, other: Lot): boolean =>
    one !== other &&
    sameKey(one.material) === sameKey(other.material) &&
    one.kind === other.kind &&
    Math.abs(one.holds - other.holds) < sameLength;
  for (const each of lots) {
    const shortened = each.holds !== each.first.holds;
    // A row that stood there with none of it takes in what is like it, as any other.
    const twin =
      shortened && each.count > 0 ? lots.find((other) => alike(each, other) && isStanding(other)) : undefined;
    if (twin !== undefined) join(twin, each);
  }
  for (const each of added) {
    const twin = [...lots, ...kept].find((other) => alike(each, other) && isStanding(other));
    if (twin === undefined) kept.push(each);
    else join(twin, each);
  }
  return kept;
}

/** A row that is in use, or that its maker keeps at none. */
function isStanding(each: Lot): boolean {
  return each.count > 0 || each.first.count === 0;
}

function written(
  text: string | undefined,
  lots: readonly Lot[],
  added: readonly Lot[],
  plan: Plan,
  settings: Settings,
): { readonly text: string; readonly changes: readonly StockChange[] } {
  const { headings, rows } = parseCsv('stock.csv', text ?? '');
  const at = (column: string): number => headings.findIndex(({ id }) => id === column);
  const lengthOf = (row: number | null): string =>
    rows.find((each) => each.row === row)?.cells[at('length')] ?? '';
  const headingUnit = headings[at('length')]?.unit;
  const byLength = soldByLength(plan);
  const show = (
    { material }: Lot,
    { holds, count, kind }: Pick<Lot, 'holds' | 'count' | 'kind'>,
    model: string,
  ): string => {
    // For people the unit is said in any case.
    const isBare = parseMeasure(model, settings.decimal)?.unit === undefined;
    const length = byLength(material)
      ? stockLengthText(holds, 'length', isBare ? '' : model, undefined, settings)
      : stockLengthText(holds, 'pieces', '1 pcs', undefined, settings);
    return `${count} x ${length} ${kind}`;
  };
  const costText = (cost: number): string =>
    numberText(roundTo(cost, settings.currencyDigits + 4), settings.decimal);

  const changes: StockChange[] = [];
  const set = new Map<number, Map<string, string>>();
  const remove = new Set<number>();
  for (const each of lots) {
    const { first, row } = each;
    const isSame =
      each.holds === first.holds &&
      each.count === first.count &&
      each.kind === first.kind &&
      each.cost === first.cost;
    if (row === null || isSame) continue;
    const model = lengthOf(row);
    const before = show(each, first, model);
    if (each.count === 0) {
      remove.add(row);
      changes.push({ material: each.material, row, before, after: '' });
      continue;
    }
    const cells = new Map<string, string>();
    const unit = byLength(each.material) ? 'length' : 'pieces';
    if (each.holds !== first.holds)
      cells.set('length', stockLengthText(each.holds, unit, model, headingUnit, settings));
    if (each.count !== first.count) cells.set('count', String(each.count));
    if (each.kind !== first.kind) cells.set('kind', each.kind);
    if (each.cost !== first.cost) cells.set('cost_set', each.cost === null ? '' : costText(each.cost));
    set.set(row, cells);
    changes.push({ material: each.material, row, before, after: show(each, each, model) });
  }
  const models = new Map(
    [true, false].map((long) => [
      long,
      rows.find(({ cells }) => byLength(cells[at('material')] ?? '') === long)?.cells[at('length')] ?? '',
    ]),
  );
  const add = added.map((each) => {
    const long = byLength(each.material);
    const model = models.get(long) ?? '';
    const length = stockLengthText(each.holds, long ? 'length' : 'pieces', model, headingUnit, settings);
    changes.push({ material: each.material, row: null, before: '', after: show(each, each, model) });
    const isNeeded = (column: string, isUsual: boolean): boolean =>
      headings.length === 0 || at(column) >= 0 || !isUsual;
    return new Map([
      ['material', each.material],
      ['length', length],
      ...(isNeeded('count', each.count === 1) ? [['count', String(each.count)] as const] : []),
      ...(isNeeded('kind', each.kind === 'spool') ? [['kind', each.kind] as const] : []),
      ...(each.cost === null ? [] : [['cost_set', costText(each.cost)] as const]),
    ]);
  });
  const separator = settings.decimal === 'comma' ? ';' : ',';
  const columns = ['material', 'length', 'count', 'kind'];
  return {
    text:
      changes.length === 0 ? (text ?? '') : editRows(text ?? '', { set, remove, add }, columns, separator),
    changes,
  };
}

function soldByLength(plan: Plan): (material: string) => boolean {
  const columns = plan.sheets.find(({ id }) => id === 'materials')?.columns ?? [];
  const inputs = (column: string) => columns.find(({ id }) => id === column)?.inputs ?? [];
  const sold = new Map(
    inputs('material').map((name, row) => [sameKey(String(name)), inputs('sold_by')[row]]),
  );
  return (material) => sold.get(sameKey(material)) === 'length';
}
