import Papa from 'papaparse';
import { type LengthUnit, lengthUnit } from './measure.ts';
import { type Problem, problem } from './problem.ts';

/** A heading as written, the column it names, and the unit that its values are in where it says so. */
export interface CsvHeading {
  readonly text: string;
  readonly id: string;
  readonly unit?: LengthUnit;
}

/** A CSV file as rows of text; blank rows are dropped, but row numbers count them. */
export interface CsvFile {
  readonly file: string;
  readonly headings: readonly CsvHeading[];
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  readonly problems: readonly Problem[];
  /** A quotation mark swallowed some rows, so that those which can be read are not all there are. */
  readonly torn: boolean;
}

/**
 * Reads CSV text: comma, semicolon or tab (whichever the heading line uses), quotes, quoted newlines,
 * byte-order mark, CRLF. Row numbers are those a spreadsheet program would show.
 */
export function parseCsv(file: string, source: string): CsvFile {
  const text = source.replace(/^\uFEFF/, '');
  const parsed = Papa.parse<string[]>(text, { delimiter: delimiterOf(text), skipEmptyLines: false });
  const problems: Problem[] = [];
  const torn = parsed.errors.find((error) => error.type === 'Quotes');
  if (torn !== undefined) {
    problems.push(
      problem(
        'csv-syntax',
        { file, row: (torn.row ?? 0) + 1 },
        'A quotation mark is opened and not closed, or stands inside a cell.',
        {
          accepted: 'cells in "quotes", with a quotation mark inside doubled: ""',
          mend: 'Close the quotation mark, or double it where it is part of the text, as in "5/32""".',
        },
      ),
    );
    // What follows the mark is one long cell: to complain about it would only hide the mark.
    return { file, headings: [], rows: [], problems, torn: true };
  }
  const [first, ...others] = parsed.data;
  const headings = (first ?? []).map(parseHeading);
  while (headings.length > 0 && headings.at(-1)?.id === '') headings.pop();
  const rows: { row: number; cells: string[] }[] = [];
  others.forEach((raw, index) => {
    const cells = raw.map((cell) => cell.trim());
    if (cells.every((cell) => cell === '')) return;
    const row = index + 2;
    const surplus = cells.slice(headings.length).find((cell) => cell !== '');
    if (surplus !== undefined) {
      problems.push(
        problem('cell-surplus', { file, row }, `“${surplus}” stands beyond the last heading.`, {
          found: surplus,
          accepted: `${headings.length} cells, one for each heading`,
          mend: 'Give the column a heading, or put text that holds a separator in "quotes".',
        }),
      );
    }
    rows.push({ row, cells });
  });
  return { file, headings, rows, problems, torn: false };
}

/** The separator that stands most often in the heading line, outside quotes. */
export function delimiterOf(text: string): string {
  const line = (/^[^\r\n]*/.exec(text)?.[0] ?? '').replace(/"[^"]*"/g, '');
  const counts = [',', ';', '\t'].map((mark) => ({ mark, count: line.split(mark).length }));
  return counts.reduce((best, each) => (each.count > best.count ? each : best)).mark;
}

/** `Woven length (in)` names the column `woven_length` and says that bare numbers in it are inches. */
export function parseHeading(text: string): CsvHeading {
  const trimmed = text.trim();
  const withUnit = /^(.*?)\s*(?:\(([^)]*)\)|,\s*([a-z]+))$/i.exec(trimmed);
  const unit = withUnit === null ? undefined : lengthUnit(withUnit[2] ?? withUnit[3] ?? '');
  const name = unit === undefined ? trimmed : (withUnit?.[1] ?? '');
  const id = name.toLowerCase().replace(/[\s-]+/g, '_');
  return unit === undefined ? { text: trimmed, id } : { text: trimmed, id, unit };
}
