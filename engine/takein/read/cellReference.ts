/** Column number, from 1, of letters such as AB; 0 where there are none. */
export function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters.toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

/** `AB12` as row and column, both from 1; undefined where the text is no cell. */
export function cellReference(text: string): { row: number; column: number } | undefined {
  const found = /^\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})$/.exec(text);
  if (found === null) return undefined;
  return { row: Number(found[2]), column: columnNumber(found[1]!) };
}
