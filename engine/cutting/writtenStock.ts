import { sameKey } from '../book/book.ts';
import { parseCsv } from '../book/files/csvFile.ts';
import { editRows } from '../book/files/editRows.ts';
import { parseMeasure } from '../book/measures/measure.ts';
import { numberText } from '../book/measures/numberText.ts';
import type { Settings } from '../book/settings.ts';
import { roundTo } from '../money/rounding.ts';
import type { Plan } from '../sheets/plan.ts';
import { stockLengthText } from './stockLengthText.ts';
import type { Lot } from './stockLots.ts';

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

/** Changed and added lots as rows of stock.csv, in the notation that its rows have. */
export function writtenStock(
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
