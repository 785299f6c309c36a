/** The cells of a row as they were meant, and the figures that a comma had split, by where they stand. */
export interface Rejoined {
  readonly cells: readonly string[];
  readonly figures: ReadonlyMap<number, SplitFigure>;
}

/** A figure that its comma has split: as it stood, and as the book writes it. */
export interface SplitFigure {
  readonly text: string;
  readonly figure: string;
  readonly parts: readonly string[];
}

/**
 * Finds figures whose own comma has split them into two cells, as they stood without quotation marks: 1,000 ft as
 * “1” and “000 ft”. Two figures side by side look just so; they are one only where the row then reads with fewer faults.
 *
 * @param figureOf the figure that the text is in the column at this place, as the book writes it; nothing where it is none
 * @param faults how many faults a row of these cells has
 */
export function rejoined(
  cells: readonly string[],
  figureOf: (at: number, text: string) => string | undefined,
  faults: (cells: readonly string[]) => number,
): Rejoined | undefined {
  const figures = new Map<number, SplitFigure>();
  let best = cells;
  let fewest = faults(cells);
  for (let at = 0; fewest > 0 && at + 1 < best.length; at += 1) {
    const parts = best.slice(at, at + 2);
    const text = parts.join(',');
    const figure = /^[+-]?\d+,\d/.test(text) ? figureOf(at, text) : undefined;
    if (figure === undefined) continue;
    const whole = [...best.slice(0, at), figure, ...best.slice(at + 2)];
    const left = faults(whole);
    if (left >= fewest) continue;
    figures.set(at, { text, figure, parts });
    best = whole;
    fewest = left;
  }
  return figures.size === 0 ? undefined : { cells: best, figures };
}
