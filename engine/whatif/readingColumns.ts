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
      if (name === 'prices.asking_set') return asking(input, own);
      const changed = words ? inWords(input, own) : inFigures(input, own, mayBeBlank);
      if (name !== 'prices.wanted_margin_percent') return changed;
      return wantedMargin(changed, touched.get('prices.asking_set')?.get(row) ?? []);
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
function moved(input: Expression, changes: readonly NumberedChange[]): Expression {
  return changes.reduce<Expression>(
    (before, change) =>
      binary('+', binary('*', before, ofChange(change, 'factor')), ofChange(change, 'plus')),
    input,
  );
}

const isActive = (change: NumberedChange): Expression => binary('=', ofChange(change, 'active'), number(1));

function inFigures(input: Expression, changes: readonly NumberedChange[], mayBeBlank: boolean): Expression {
  if (!mayBeBlank) return moved(input, changes);
  // A blank has nothing to go up or down by, and takes a new figure where one is set.
  const fresh = changes.reduce<Expression>(
    (before, change) =>
      change.change.alteration.how === 'value'
        ? call('IF', isActive(change), ofChange(change, 'value'), before)
        : before,
    text(''),
  );
  return call('IF', call('ISNUMBER', input), moved(input, changes), fresh);
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

const ofPrice = (id: string): Expression => ({
  kind: 'reference',
  to: { rows: 'same', sheet: 'prices', column: id },
});
const today = (id: string): Expression => ({
  kind: 'reference',
  to: {
    rows: 'keyed',
    sheet: 'before_after',
    column: id,
    keys: [ofPrice('product'), ofPrice('channel')],
  },
});
const inBase = (): Expression => binary('=', switched('scenario'), text(baseScenario));
/** An empty text is no price set by hand. */
const setByHand = (): Expression => call('ISNUMBER', today('margin_kept'));

/** One that the changes themselves set, while they do; in the base, what the book has; else today's, or what keeps the margin. */
function asking(input: Expression, changes: readonly NumberedChange[]): Expression {
  const staying = binary('=', switched('asking_prices'), text(stayingPrices));
  // Read through a formula, a blank would be nought.
  const own = call('IF', call('ISNUMBER', input), input, text(''));
  const raised = call('IF', binary('>', ofPrice('with_ending'), own), text(''), own);
  const kept = call('IF', setByHand(), raised, own);
  const otherwise = call('IF', inBase(), own, call('IF', staying, today('asking_today'), kept));
  if (changes.length === 0) return otherwise;
  // A price that follows its cost goes up or down from what it is today.
  const from = call('IF', call('ISNUMBER', input), input, today('asking_today'));
  return call('IF', anyActive(changes), moved(from, changes), otherwise);
}

function wantedMargin(changed: Expression, asked: readonly NumberedChange[]): Expression {
  const kept = call('IF', setByHand(), today('margin_kept'), changed);
  const rest = call('IF', inBase(), changed, kept);
  return asked.length === 0 ? rest : call('IF', anyActive(asked), changed, rest);
}

function anyActive(changes: readonly NumberedChange[]): Expression {
  const [only, ...more] = changes.map(isActive);
  return only !== undefined && more.length === 0 ? only : call('OR', ...changes.map(isActive));
}
