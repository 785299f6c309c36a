import Papa from 'papaparse';
import type { BookText } from './books.ts';

function changed(book: BookText, file: string, change: (text: string) => string): BookText {
  return new Map([...book, [file, change(book.get(file) ?? '')]]);
}

/** Sets a figure of `book.yaml`. */
export function setFigure(book: BookText, name: string, value: string): BookText {
  const line = new RegExp(`^${name}:.*$`, 'm');
  return changed(book, 'book.yaml', (text) => {
    if (!line.test(text)) throw new Error(`book.yaml has no ${name}`);
    return text.replace(line, `${name}: ${value}`);
  });
}

/**
 * Sets cells of the record that has these keys in one of the book's tables; columns and a record that are
 * missing are added, so that a figure which the book leaves to its default can be set as well.
 */
export function setCells(
  book: BookText,
  file: string,
  keys: Readonly<Record<string, string>>,
  cells: Readonly<Record<string, string>>,
): BookText {
  return changed(book, file, (text) => {
    const parsed = Papa.parse<string[]>(text.trim());
    const [header = [], ...rows] = parsed.data;
    if (header.length <= 1) header.splice(0, 1, ...Object.keys(keys));
    const place = (name: string): number => {
      if (!header.includes(name)) header.push(name);
      return header.indexOf(name);
    };
    let record = rows.find((row) => Object.entries(keys).every(([key, value]) => row[place(key)] === value));
    if (record === undefined) {
      record = [];
      rows.push(record);
    }
    for (const [name, value] of Object.entries({ ...keys, ...cells })) record[place(name)] = value;
    const { delimiter } = parsed.meta;
    const whole = rows.map((row) => Array.from({ length: header.length }, (_, at) => row[at] ?? ''));
    return Papa.unparse([header, ...whole], { delimiter });
  });
}
