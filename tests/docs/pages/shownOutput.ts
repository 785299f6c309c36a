/** A line of this alone stands for lines that a page leaves out. */
export const cut = '...';

/** Parts of a shown output between its cuts, as lines. */
function partsOf(shown: string): string[][] {
  const parts: string[][] = [[]];
  for (const line of shown.replace(/\n$/, '').split('\n')) {
    if (line.trim() === cut) parts.push([]);
    else parts.at(-1)?.push(line);
  }
  return parts;
}

/** Where `part` stands in `lines` from `from` on; -1 where it does not. */
function placeOf(part: readonly string[], lines: readonly string[], from: number): number {
  for (let start = from; start + part.length <= lines.length; start += 1)
    if (part.every((line, index) => line === lines[start + index])) return start;
  return -1;
}

/** Whether a page shows what was printed: every line of it, in order, and all lines where nothing is cut. */
export function showsOutput(shown: string, printed: string): boolean {
  const lines = printed.replace(/\n+$/, '').split('\n');
  const parts = partsOf(shown);
  let from = 0;
  for (const [index, part] of parts.entries()) {
    const isLast = index === parts.length - 1;
    const start =
      isLast && index > 0
        ? Math.max(from, lines.length - part.length)
        : index === 0
          ? 0
          : placeOf(part, lines, from);
    if (start < 0 || placeOf(part, lines, start) !== start) return false;
    from = start + part.length;
    if (isLast && part.length > 0 && from !== lines.length) return false;
  }
  return true;
}

/**
 * What a page is to show now. Cuts stay where they are: a part between two begins with its old first line, or the
 * words before the first double space of it, and is as long as before; the first and the last part stand at the ends.
 *
 * @throws where a part cannot be found again; cut that output anew by hand
 */
export function refreshed(shown: string, printed: string): string {
  if (showsOutput(shown, printed)) return shown;
  const lines = printed.replace(/\n+$/, '').split('\n');
  const parts = partsOf(shown);
  if (parts.length === 1) return `${lines.join('\n')}\n`;
  const nameOf = (line = ''): string => line.split('  ')[0] ?? line;
  let from = 0;
  const kept = parts.map((part, index) => {
    if (index === 0) from = 0;
    else if (index === parts.length - 1) from = lines.length - part.length;
    else from = lines.findIndex((line, at) => at >= from && nameOf(line) === nameOf(part[0]));
    if (from < 0) throw new Error(`“${part[0]}” is not printed any more: cut this output anew.`);
    const now = lines.slice(from, from + part.length);
    from += part.length;
    return now;
  });
  return kept
    .flatMap((part, index) => (index === 0 ? part : [cut, ...part]))
    .map((line) => `${line}\n`)
    .join('');
}
