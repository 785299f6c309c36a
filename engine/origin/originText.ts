/** A cell ends at 32,767 characters. */
const longestChunk = 30_000;

/**
 * A value as texts that every spreadsheet program carries unharmed from cell to cell: JSON in plain ASCII, with
 * nothing in it that a file format takes for an escape, and no blanks that one would draw together.
 */
export function toChunks(value: unknown): string[] {
  const text = JSON.stringify(value)
    .replace(/[^ -~]|_(?=x)| (?= )/g, escaped)
    .replace(/(?<=\\u0020) /g, escaped);
  const chunks: string[] = [];
  for (let at = 0; at < text.length; ) {
    let end = Math.min(at + longestChunk, text.length);
    // No chunk begins or ends in a blank, which would get lost.
    while (end < text.length && (text[end] === ' ' || text[end - 1] === ' ')) end -= 1;
    chunks.push(text.slice(at, end));
    at = end;
  }
  return chunks;
}

function escaped(letter: string): string {
  return `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** The value that was written as these chunks; undefined where they are no longer what they were. */
export function fromChunks(chunks: readonly string[]): unknown {
  try {
    return JSON.parse(chunks.join(''));
  } catch {
    return undefined;
  }
}
