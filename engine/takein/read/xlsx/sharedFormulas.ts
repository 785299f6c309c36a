import { columnLetters } from '../../../sheets/address.ts';
import { columnNumber } from '../cellReference.ts';

/** A formula that is written once for many cells: the first has its text, the others name it (ECMA-376 part 1, 18.3.1.40). */
export class SharedFormulas {
  readonly #first = new Map<
    string,
    { readonly text: string; readonly row: number; readonly column: number }
  >();

  /** The formula of a cell, moved there where it is shared. */
  of(text: string, group: string | undefined, row: number, column: number, type: string | undefined): string {
    if (type !== 'shared' || group === undefined) return text;
    if (text !== '') {
      this.#first.set(group, { text, row, column });
      return text;
    }
    const first = this.#first.get(group);
    return first === undefined ? '' : moved(first.text, row - first.row, column - first.column);
  }
}

/** A formula with its relative references moved; texts and names of sheets stay. */
function moved(text: string, down: number, right: number): string {
  return text.replace(
    /"(?:[^"]|"")*"|'(?:[^']|'')*'|(?<![\w.$])(\$?)([A-Z]{1,3})(\$?)([1-9]\d{0,6})(?![\w.(])/g,
    (whole, fixColumn: string | undefined, letters: string, fixRow: string, digits: string) => {
      if (fixColumn === undefined) return whole;
      const column = fixColumn === '$' ? letters : columnLetters(columnNumber(letters) + right - 1);
      return `${fixColumn}${column}${fixRow}${fixRow === '$' ? digits : Number(digits) + down}`;
    },
  );
}
