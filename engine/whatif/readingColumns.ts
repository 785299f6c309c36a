import type { Expression } from '../sheets/expression.ts';
import type { Plan, PlanColumn } from '../sheets/plan.ts';
import { columnIn, type ReadingColumn } from './redirect.ts';
import type { NumberedChange } from './switchTables.ts';

/** Words that the sheet What-if offers for asking prices. */
export const stayingPrices = 'stay as they are';
export const baseScenario = 'base';

/**
 * For every input that a scenario changes, a column that reads it as the scenario picked in the workbook has it; and
 * the two inputs of prices through which asking prices stay, or keep their margins.
 */
export function readingColumns(plan: Plan, changes: readonly NumberedChange[]): ReadingColumn[] {
  const touched = new Map<string, Map<number, NumberedChange[]>>();
  const rowsOf = (name: string): Map<number, NumberedChange[]> => {
    const rows = touched.get(name) ?? new Map<number, NumberedChange[]>();
    touched.set(name, rows);
    return rows;
  };
  for (const each of changes) {
    for (const { sheet, column, rows } of each.change.cells) {
      const ofColumn = rowsOf(`${sheet}.${column}`);
      for (const row of rows) ofColumn.set(row, [...(ofColumn.get(row) ?? []), each]);
    }
  }
  for (const id of ['asking_set', 'wanted_margin_percent']) rowsOf(`prices.${id}`);
  return [...touched].flatMap(([name, rows]) => {
    const [sheetId = '', columnId = ''] = name.split('.');
    const found = columnIn(plan, sheetId, columnId);
    if (found?.column.inputs === undefined) return [];
    const { column } = found;
    const { inputs = [] } = column;
    const words = holdsWords(column);
    const mayBeBlank = column.role === 'override' || inputs.includes(null);
    const input: Expression = { kind: 'reference', to: { rows: 'same', sheet: sheetId, column: columnId } };
    const rowFormulas = inputs.map((_, row): Expression => {
      const own = rows.get(row) ?? [];
      const changed = words ? inWords(input, own) : inFigures(input, own, mayBeBlank);
      return sheetId === 'prices' ? priced(columnId, changed) : changed;
    });
    const reading: PlanColumn = {
      id: `${columnId}_read`,
      heading: inScenario(column.heading),
      unit: column.unit,
      note: `${column.heading.replace(/,.*/, '')} as the scenario picked on the sheet What-if has it. Every other formula reads this one.`,
      role: 'computed',
      kind: column.kind === 'key' ? 'text' : column.kind,
      bounds: {},
      bar: false,
      at: column.at,
      rowFormulas,
    };
    return [{ sheet: sheetId, column: columnId, reading, mayBeBlank: mayBeBlank && !words }];
  });
}

/** "Pack price, USD" reads "Pack price in the scenario, USD". */
function inScenario(heading: string): string {
  const comma = heading.indexOf(',');
  return comma < 0
    ? `${heading} in the scenario`
    : `${heading.slice(0, comma)} in the scenario${heading.slice(comma)}`;
}

function holdsWords({ kind }: PlanColumn): boolean {
  return ['text', 'ref', 'choice', 'yes_no', 'key', 'formula'].includes(kind);
}

const call = (name: string, ...args: Expression[]): Expression => ({ kind: 'call', name, args });
const number = (value: number): Expression => ({ kind: 'number', value });
const text = (value: string): Expression => ({ kind: 'text', value });
const binary = (operator: '+' | '*' | '=' | '&' | '>', left: Expression, right: Expression): Expression => ({
  kind: 'binary',
  operator,
  left,
  right,
});
const ofChange = (change: NumberedChange, column: string): Expression => ({
  kind: 'reference',
  to: { rows: 'keyed', sheet: 'changes', column, keys: [text(change.number)] },
});
const switched = (column: string): Expression => ({
  kind: 'reference',
  to: { rows: 'single', sheet: 'what_if', column },
});

/** x * factor + plus, once for each change of the cell, in the order of their rows. */
function inFigures(input: Expression, changes: readonly NumberedChange[], mayBeBlank: boolean): Expression {
  const moved = changes.reduce<Expression>(
    (before, change) =>
      binary('+', binary('*', before, ofChange(change, 'factor')), ofChange(change, 'plus')),
    input,
  );
  if (!mayBeBlank) return moved;
  // A blank has nothing to go up or down by, and takes a new figure where one is set.
  const fresh = changes.reduce<Expression>(
    (before, change) =>
      change.change.alteration.how === 'value'
        ? call('IF', binary('=', ofChange(change, 'active'), number(1)), ofChange(change, 'value'), before)
        : before,
    text(''),
  );
  return call('IF', call('ISNUMBER', input), moved, fresh);
}

function inWords(input: Expression, changes: readonly NumberedChange[]): Expression {
  const moved = changes.reduce<Expression>(
    (before, change) =>
      call(
        'IF',
        binary('=', ofChange(change, 'active'), number(1)),
        binary('&', ofChange(change, 'word'), text('')),
        before,
      ),
    binary('&', input, text('')),
  );
  return moved;
}

/** Asking prices: as the book has them; or today's; or what keeps the margin. */
function priced(column: string, changed: Expression): Expression {
  const own = (id: string): Expression => ({
    kind: 'reference',
    to: { rows: 'same', sheet: 'prices', column: id },
  });
  const today = (id: string): Expression => ({
    kind: 'reference',
    to: { rows: 'keyed', sheet: 'before_after', column: id, keys: [own('product'), own('channel')] },
  });
  const inBase = binary('=', switched('scenario'), text(baseScenario));
  const staying = binary('=', switched('asking_prices'), text(stayingPrices));
  // An empty text is no price set by hand.
  const setByHand = call('ISNUMBER', today('margin_kept'));
  if (column === 'asking_set') {
    const raised = call('IF', binary('>', own('with_ending'), changed), text(''), changed);
    // A price that the changes themselves set is what was asked for.
    const kept = call('IF', setByHand, raised, changed);
    return call('IF', inBase, changed, call('IF', staying, today('asking_today'), kept));
  }
  return call('IF', inBase, changed, call('IF', setByHand, today('margin_kept'), changed));
}
