import type { Values } from '../calc/values.ts';
import type { CellValue, Plan } from '../sheets/plan.ts';
import { withInputs } from './applyChanges.ts';
import { mustRise } from './mustRise.ts';
import type { Change } from './words/change.ts';

/**
 * The margin that each price set by hand is to keep: today's, less what one coin makes of it, since rounded tax and
 * endings move a margin by so much without anyone having changed anything. Null where the price follows its cost.
 */
export function keptMargins(plan: Plan, today: Values): (number | null)[] {
  const coin = 10 ** -plan.settings.currencyDigits;
  return inputsOf(plan, 'asking_set').map((asking, row) => {
    const net = today.number('prices', 'net', row);
    if (typeof asking !== 'number' || net <= 0) return null;
    return (today.number('prices', 'profit', row) - coin) / net;
  });
}

/**
 * Today's asking prices as if they were all set by hand: what the ticket says while costs move. One that the changes
 * themselves set is another ticket, and stays as they set it.
 */
export function heldPrices(plan: Plan, today: Values): Plan {
  const margins = keptMargins(plan, today);
  return withPrices(plan, (row, was) =>
    asked(row, was, today)
      ? was
      : { asking: today.number('prices', 'asking', row), margin: margins[row] ?? was.margin },
  );
}

/** Whether a price is set by hand otherwise than today. */
function asked(row: number, was: PriceInputs, today: Values): boolean {
  return typeof was.asking === 'number' && was.asking !== today.get('prices', 'asking_set', row);
}

/**
 * The plan with asking prices where changes name them: one that follows its cost goes up or down from what it is
 * today, as if that had been set by hand.
 *
 * @param rows rows of the sheet Prices; all where absent
 */
export function withAskingPrices(plan: Plan, today: Values, rows?: ReadonlySet<number>): Plan {
  return withPrices(plan, (row, was) =>
    typeof was.asking === 'number' || rows?.has(row) === false
      ? was
      : { ...was, asking: today.number('prices', 'asking', row) },
  );
}

/** Rows of the sheet Prices whose asking price is changed. */
export function rowsAsked(changes: readonly Change[]): ReadonlySet<number> {
  return new Set(
    changes.flatMap(({ cells }) =>
      cells.flatMap(({ sheet, column, rows }) => (sheet === 'prices' && column === 'asking_set' ? rows : [])),
    ),
  );
}

/** Today's asking prices stay, and so do the margins that are wanted: what a sweep holds while an input moves. */
export function heldTickets(plan: Plan, today: Values): Plan {
  return withPrices(plan, (row, { margin }) => ({ asking: today.number('prices', 'asking', row), margin }));
}

/**
 * Asking prices that keep the margins. One that follows its cost does so by itself, at the wanted margin. One that is
 * set by hand keeps today's own margin; it goes up, never down.
 *
 * @param held the same changes with today's asking prices held: there stands what each price would have to be
 */
export function keptPrices(plan: Plan, today: Values, held: Values): Plan {
  const margins = keptMargins(plan, today);
  return withPrices(plan, (row, was) => {
    const margin = margins[row] ?? null;
    if (typeof was.asking !== 'number' || margin === null || asked(row, was, today)) return was;
    const raised = mustRise(held.number('prices', 'with_ending', row), was.asking);
    return { asking: raised ? null : was.asking, margin };
  });
}

/** Every asking price as it follows its cost, those that are set by hand at the margin that they are to keep. */
export function followingPrices(plan: Plan, today: Values): Plan {
  const margins = keptMargins(plan, today);
  return withPrices(plan, (row, was) =>
    typeof was.asking === 'number' ? { asking: null, margin: margins[row] ?? was.margin } : was,
  );
}

interface PriceInputs {
  readonly asking: CellValue;
  readonly margin: CellValue;
}

function inputsOf(plan: Plan, id: string): readonly CellValue[] {
  const sheet = plan.sheets.find((each) => each.id === 'prices');
  return sheet?.columns.find((each) => each.id === id)?.inputs ?? [];
}

function withPrices(plan: Plan, set: (row: number, was: PriceInputs) => PriceInputs): Plan {
  const margin = inputsOf(plan, 'wanted_margin_percent');
  const after = inputsOf(plan, 'asking_set').map((each, row) =>
    set(row, { asking: each, margin: margin[row] ?? null }),
  );
  return withInputs(
    plan,
    new Map([
      ['prices.asking_set', after.map((each) => each.asking)],
      ['prices.wanted_margin_percent', after.map((each) => each.margin)],
    ]),
  );
}
