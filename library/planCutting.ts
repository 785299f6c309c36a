import {
  type Book,
  type CutReport,
  combined,
  cutBook,
  cutSettings,
  hasErrors,
  largestQuantity,
  linesToMake,
  type Order,
  type Plan,
  type Problem,
  priceBook,
  productNames,
  type StopSignal,
  unknownProduct,
  type Values,
} from '../engine/index.ts';
import { type Answer, answer, refused } from './answer.ts';
import { type BookTexts, sourceOf } from './bookTexts.ts';
import { type LoadedSolver, solverIn } from './loadSolver.ts';
import { asked } from './question.ts';

/** How a batch is cut. */
export interface CuttingQuestion {
  /** From `loadSolver`, or `shippedSolver` of `sennit/node`; one may serve any number of plans, one after the other. */
  readonly solver: LoadedSolver;
  /** How many to make of which product; the book's own `make.csv` unless given. */
  readonly make?: Readonly<Record<string, number>>;
  /** What is left over goes back to stock from this length; as the book says unless given. */
  readonly keepMm?: number;
  /** Cord that every cut loses; as the book says unless given. */
  readonly cutLossMm?: number;
  /**
   * Ends the search early with the best plan so far, such as `AbortSignal.timeout(30_000)`. Without one it goes on until
   * the plan is proven or nothing better is found, which large batches take long for.
   */
  readonly signal?: StopSignal;
}

/**
 * Plans what to cut from which stock for a batch, and what to buy for it at the least cost.
 *
 * @returns what `sennit cut --json` prints: lengths in millimetres, money in the book's currency; `complete` is false where
 * a piece is longer than any stock and pack
 */
export async function planCutting(texts: BookTexts, question: CuttingQuestion): Promise<Answer<CutReport>> {
  const { book, plan, values, problems } = priceBook(sourceOf(texts));
  if (book === undefined || plan === undefined || values === undefined || hasErrors(problems))
    return refused(problems);
  const { order, problems: faulty } = orderOf(question, book, plan, values);
  if (hasErrors(faulty)) return refused([...problems, ...faulty]);
  const { keepMm, cutLossMm, signal, solver } = question;
  const rates = cutSettings(plan, values);
  const report = await cutBook(plan, values, order, solverIn(solver), {
    keepMm: keepMm ?? rates.keepMm,
    cutLossMm: cutLossMm ?? rates.cutLossMm,
    ...(signal === undefined ? {} : { signal }),
  });
  return answer(problems, () => report);
}

/** What is to be made: as asked, or by the book's own table. */
function orderOf(
  { make, keepMm = 0, cutLossMm = 0 }: CuttingQuestion,
  book: Book,
  plan: Plan,
  values: Values,
): { readonly order: Order; readonly problems: readonly Problem[] } {
  const known = productNames(plan, values);
  const lines =
    make === undefined
      ? linesToMake(book)
      : Object.entries(make).map(([product, quantity]) => ({ product, quantity }));
  const order = combined(lines, known);
  const problems = Object.entries({ keepMm, cutLossMm })
    .filter(([, lengthMm]) => !(lengthMm >= 0 && lengthMm < Number.POSITIVE_INFINITY))
    .map(([field, lengthMm]) =>
      asked('out-of-range', field, lengthMm, {
        message: `${field} is ${lengthMm}.`,
        accepted: 'millimetres from 0',
        mend: 'Give a length.',
      }),
    );
  for (const { product, quantity } of make === undefined ? [] : lines) {
    const field = `make.${product}`;
    if (!known.has(product.toLowerCase())) {
      const { message, mend } = unknownProduct(product, plan, values);
      problems.push(asked('reference-unknown', field, product, { message, accepted: 'a product', mend }));
    } else if (!Number.isInteger(quantity) || quantity < 0)
      problems.push(
        asked('not-a-number', field, quantity, {
          message: `${quantity} of ${product} is no number of pieces.`,
          accepted: 'a whole number from 0',
          mend: 'Give whole pieces.',
        }),
      );
  }
  for (const { product, quantity } of order.filter((each) => each.quantity > largestQuantity))
    problems.push(
      asked('out-of-range', make === undefined ? 'make' : `make.${product}`, quantity, {
        message: `${quantity} of ${product} are more than ${largestQuantity} of one product.`,
        accepted: `up to ${largestQuantity}`,
        mend: 'Plan them in batches.',
      }),
    );
  if (order.length === 0 && problems.length === 0)
    problems.push(
      asked('cell-missing', 'make', '', {
        message: 'Nothing is to be made.',
        accepted: 'products and how many',
        mend: 'Give make, or put a table make.csv into the book.',
      }),
    );
  return { order, problems };
}
