import type { StockChange } from '../../engine/index.ts';
import type { Style } from './style.ts';
import { type TableColumn, table, wrap } from './table.ts';

/** What became of the changes: made, only shown, or held back. */
export type StockState = 'written' | 'dry' | 'incomplete' | 'stopped';

const closing: Readonly<Record<StockState, string>> = {
  written:
    'stock.csv is written: this batch is off the stock, and its bought packs are in it. The same command again plans, and takes, another batch.',
  dry: 'Nothing was written. With --write alone this is taken off the stock, and bought packs count as bought.',
  incomplete: 'Nothing was written, as not everything can be cut. Make fewer, or add stock or packs.',
  stopped: 'Nothing was written, as the search was stopped early. Run it again, with more --time if need be.',
};

/** Rows of stock.csv before and after, and whether they were written. */
export function showStockChanges(
  changes: readonly StockChange[],
  state: StockState,
  how: { readonly width: number; readonly style: Style },
): string {
  if (changes.length === 0) return 'stock.csv: nothing changes.\n';
  const columns: TableColumn[] = [
    { heading: 'stock.csv', align: 'left' },
    { heading: 'Row', align: 'right' },
    { heading: state === 'written' ? 'Was' : 'Is', align: 'left' },
    { heading: state === 'written' ? 'Is now' : 'Would be', align: 'left' },
  ];
  const rows = changes.map((each) => [
    each.material,
    each.row === null ? 'new' : String(each.row),
    each.before,
    each.after === '' ? 'used up' : each.after,
  ]);
  const told = wrap(closing[state], how.width).join('\n');
  const said = state === 'incomplete' || state === 'stopped' ? how.style.bad(told) : told;
  return `${table(columns, rows, how.width, how.style)}\n${said}\n`;
}
