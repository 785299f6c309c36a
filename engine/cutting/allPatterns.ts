import type { Bin, CutTask } from './task.ts';

/**
 * Every way to cut every stock so that no further piece fits in, or undefined where there are more than so
 * many. Any plan is made of parts of these, so a search among them all misses nothing.
 */
export function allPatterns(task: CutTask, most: number): Bin[] | undefined {
  const found: Bin[] = [];
  const sizes = task.pieces.map((piece) => piece.lengthUm + task.kerfUm);
  const order = sizes.map((_, piece) => piece).sort((one, other) => sizes[other]! - sizes[one]!);
  let steps = 0;
  /** Fills what is left with the pieces from `at` on; false once there are too many ways. */
  const fill = (stock: number, at: number, left: number, counts: number[]): boolean => {
    steps += 1;
    if (found.length > most || steps > most * 40) return false;
    const piece = order[at];
    if (piece === undefined) {
      const fuller = order.some((each) => counts[each]! < task.pieces[each]!.count && sizes[each]! <= left);
      if (!fuller && counts.some((count) => count > 0)) found.push({ stock, counts: [...counts] });
      return true;
    }
    const size = sizes[piece]!;
    const room = size === 0 ? 0 : Math.floor(left / size);
    for (let count = Math.min(task.pieces[piece]!.count, room); count >= 0; count -= 1) {
      counts[piece] = count;
      if (!fill(stock, at + 1, left - count * size, counts)) return false;
    }
    counts[piece] = 0;
    return true;
  };
  const complete = task.stocks.every((stock, at) =>
    fill(
      at,
      0,
      stock.lengthUm + task.kerfUm,
      task.pieces.map(() => 0),
    ),
  );
  return complete ? found : undefined;
}
