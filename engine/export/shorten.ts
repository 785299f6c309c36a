/**
 * Cuts text to a number of characters, with an ellipsis for what is gone.
 *
 * @param most length of the result at most, counted as the file format does (UTF-16)
 */
export function shorten(text: string, most: number): string {
  if (text.length <= most) return text;
  // A letter outside the basic plane takes two characters: half of one is none.
  const cut = text.slice(0, Math.max(0, most - 1)).replace(/[\uD800-\uDBFF]$/, '');
  return `${cut}…`;
}
