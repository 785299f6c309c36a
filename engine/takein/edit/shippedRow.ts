import { parseCsv } from '../../book/files/csvFile.ts';
import type { FieldSchema } from '../../book/schema.ts';
import type { Settings } from '../../book/settings.ts';
import { isWords } from '../read/cellValue.ts';

/**
 * A row that comes with Sennit, as texts by column in the notation of the book: it is written whole into the book's
 * own table, where a row stands for the whole of the shipped one.
 *
 * @param row its number in the shipped file
 */
export function shippedRow(
  file: string,
  text: string,
  row: number | undefined,
  field: (column: string) => FieldSchema | undefined,
  settings: Settings,
): Map<string, string> {
  const { headings, rows } = parseCsv(file, text);
  const cells = rows.find((each) => each.row === row)?.cells ?? [];
  return new Map(
    headings.map(({ id }, at) => {
      const cell = cells[at] ?? '';
      const isFigure = !isWords(field(id)?.kind ?? 'text');
      const comma = settings.decimal === 'comma' && isFigure;
      return [id, comma ? cell.replace(/\d[\d.,]*/g, inCommaNotation) : cell];
    }),
  );
}

/** Decimals and thousands change their marks: 1,050.5 is 1.050,5. */
function inCommaNotation(figure: string): string {
  return figure.replace(/[.,]/g, (mark) => (mark === '.' ? ',' : '.'));
}
