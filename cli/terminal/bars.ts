/** Marks of a bar: where the input goes down, up, and today. */
export const barMarks = { down: '▒', up: '█', today: '│' } as const;

/**
 * A bar either side of today's value.
 *
 * @param from left end of the scale
 * @param to right end of the scale
 * @param low result where the input goes down; null where there is none
 */
export function sideBar(
  scale: { readonly from: number; readonly to: number; readonly today: number },
  low: number | null,
  high: number | null,
  width: number,
): string {
  const cell = (value: number): number =>
    Math.max(
      0,
      Math.min(width - 1, Math.round(((value - scale.from) / (scale.to - scale.from || 1)) * (width - 1))),
    );
  const cells = Array.from({ length: width }, () => ' ');
  const today = cell(scale.today);
  const fill = (value: number | null, mark: string): void => {
    if (value === null) return;
    const end = cell(value);
    const step = Math.sign(end - today);
    for (let at = today; at !== end; at += step) cells[at + step] = mark;
  };
  // Where both lie on one side, the longer one is drawn first so that the shorter stays seen.
  const far = (value: number | null): number => (value === null ? 0 : Math.abs(value - scale.today));
  if (far(low) > far(high)) {
    fill(low, barMarks.down);
    fill(high, barMarks.up);
  } else {
    fill(high, barMarks.up);
    fill(low, barMarks.down);
  }
  cells[today] = barMarks.today;
  return cells.join('').trimEnd();
}
