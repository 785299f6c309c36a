import type { Plan } from '../../engine/sheets/plan.ts';
import { findMover } from '../../engine/whatif/mover.ts';
import { type Alteration, altered } from '../../engine/whatif/words/change.ts';
import { isFault } from '../../engine/whatif/words/findInputs.ts';
import { type BookText, pricedBook } from './books.ts';
import { editedByHand } from './editedByHand.ts';

/** The book with an input altered in its tables, cell by cell: what nothing of a sweep has touched. */
export function alteredByHand(book: BookText, plan: Plan, input: string, alteration: Alteration): BookText {
  const mover = findMover(input, plan);
  if (isFault(mover)) throw new Error(mover.message);
  return mover.cells.reduce((files, { sheet: id, column: name, row }, at) => {
    const sheet = plan.sheets.find((each) => each.id === id);
    const column = sheet?.columns.find((each) => each.id === name);
    if (sheet === undefined || column === undefined) throw new Error(`No ${id}.${name}`);
    return editedByHand(files, sheet, column, row, altered(mover.before[at] ?? null, alteration));
  }, book);
}

/** The book with today's asking prices written into it, as a maker does who leaves the tickets as they are. */
export function withTickets(book: BookText): BookText {
  const { plan, values } = pricedBook(book);
  const prices = plan.sheets.find(({ id }) => id === 'prices');
  const asking = prices?.columns.find(({ id }) => id === 'asking_set');
  if (prices === undefined || asking === undefined) throw new Error('No prices');
  return Array.from({ length: prices.rowCount }, (_, row) => row).reduce(
    (files, row) => editedByHand(files, prices, asking, row, values.number('prices', 'asking', row)),
    book,
  );
}
