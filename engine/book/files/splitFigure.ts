/** The cells of a row as they were meant, and the figures that a comma had split, by where they stand. */
export interface Rejoined {
  readonly cells: readonly string[];
  readonly figures: ReadonlyMap<number, { readonly text: string; readonly parts: readonly string[] }>;
}

/**
 * Finds figures whose own comma has split them into two cells, as they stood without quotation marks: 1,000 ft as
 * “1” and “000 ft”. Two figures side by side look just so; they are one only where the row then reads with fewer faults.
 *
 * @param isFigure whether the text is a figure that the column at this place takes
 * @param faults how many faults a row of these cells has
 */
export function rejoined(
  cells: readonly string[],
  isFigure: (at: number, text: string) => boolean,
  faults: (cells: readonly string[]) => number,
): Rejoined | undefined {
  const figures = new Map<number, { text: string; parts: readonly string[] }>();
  let best = cells;
  let fewest = faults(cells);
  for (let at = 0; fewest > 0 && at + 1 < best.length; at += 1) {
    const parts = best.slice(at, at + 2);
    const text = parts.join(',');
    if (!/^[+-]?\d+,\d/.test(text) || !isFigure(at, text)) continue;
    const whole = [...best.slice(0, at), text, ...best.slice(at + 2)];
    const left = faults(whole);
    if (left >= fewest) continue;
    figures.set(at, { text, parts });
    best = whole;
    fewest = left;
  }
  return figures.size === 0 ? undefined : { cells: best, figures };
}
