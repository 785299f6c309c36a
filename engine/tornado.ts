import type { Values } from './calc/values.ts';
import type { Tornado, TornadoBar } from './export/report/bookReport.ts';
import { type OpenedBook, priceOpened } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { applyChanges } from './whatif/applyChanges.ts';
import type { Change } from './whatif/change.ts';
import { isFault } from './whatif/findInputs.ts';
import { parseChange } from './whatif/parseChange.ts';
import { heldPrices } from './whatif/prices.ts';

const groups = [
  { name: 'Wage', text: 'wage' },
  { name: 'Bench minutes', text: 'minutes' },
  { name: 'Price of cord', text: 'cord' },
  { name: 'Price of parts', text: 'parts' },
  { name: 'Fees of channels', text: 'fees' },
  { name: 'Overhead', text: 'overheads' },
] as const;

const byPercent = 10;

/**
 * Moves each group of inputs up and down by a tenth, alone, with today's asking prices held, and calculates the
 * book again each time. A group that the book has nothing of, or that may not go so far, is left out.
 */
export function tornado(opened: OpenedBook, plan: Plan, values: Values): Tornado {
  const measure = plan.sheets.some(({ id }) => id === 'month') ? 'month' : 'pieces';
  const after = (change: Change): number | undefined => {
    if (applyChanges(plan, [change]).faults.length > 0) return undefined;
    const changed = priceOpened(opened, (each) => heldPrices(applyChanges(each, [change]).plan, values));
    if (changed.plan === undefined || changed.values === undefined) return undefined;
    return measured(measure, changed.plan, changed.values);
  };
  const bars = groups.flatMap(({ name, text }): TornadoBar[] => {
    const lower = parseChange(`${text} -${byPercent} %`, plan);
    const higher = parseChange(`${text} +${byPercent} %`, plan);
    if (isFault(lower) || isFault(higher)) return [];
    const [down, up] = [after(lower), after(higher)];
    return down === undefined || up === undefined ? [] : [{ name, down, up }];
  });
  const width = ({ down, up }: TornadoBar): number => Math.abs(up - down);
  return {
    measure,
    byRatio: byPercent / 100,
    today: measured(measure, plan, values),
    bars: bars.filter((bar) => width(bar) > 0).sort((one, other) => width(other) - width(one)),
  };
}

function measured(measure: Tornado['measure'], plan: Plan, values: Values): number {
  if (measure === 'month') return values.number('month', 'profit', 0);
  const rowCount = plan.sheets.find(({ id }) => id === 'prices')?.rowCount ?? 0;
  return Array.from({ length: rowCount }, (_, row) => values.number('prices', 'contribution', row)).reduce(
    (sum, each) => sum + each,
    0,
  );
}
