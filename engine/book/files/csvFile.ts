import Papa from 'papaparse';
import { mostCells, mostHeadings, mostRows, tooLarge } from '../limits.ts';
import { forceUnit } from '../measures/force.ts';
import { type LengthUnit, lengthUnit } from '../measures/measure.ts';
import { isWeightWord } from '../measures/weight.ts';
import { type Problem, problem } from '../problems/problem.ts';
import { lineOfLostLetter, lostLetter } from './lostLetter.ts';

/** A heading as written, the column it names, and the unit that its values are in where it says so. */
export interface CsvHeading {
  readonly text: string;
  readonly id: string;
  readonly unit?: LengthUnit;
  /** The same for weights and strengths, as written: `g`, `g/m`, `lbf`. */
  readonly measure?: string;
}

/** A CSV file as rows of text; blank rows are dropped, but row numbers count them. */
export interface CsvFile {
  readonly file: string;
  /** The row of the headings: the first that is not blank. */
  readonly headingRow: number;
  readonly headings: readonly CsvHeading[];
  /** Cells of the row of headings, blank ones at its end as well. */
  readonly width: number;
  /** What stands between two cells. */
  readonly mark: string;
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
  readonly problems: readonly Problem[];
  /** A quotation mark or a foreign character set swallowed rows, so that those read are not all there are. */
  readonly torn: boolean;
}

/**
 * Reads CSV text: comma, semicolon or tab (whichever the heading line uses), quotes, quoted newlines,
 * byte-order mark, CRLF. Row numbers are those a spreadsheet program would show.
 */
export function parseCsv(file: string, source: string): CsvFile {
  const text = source.replace(/^\uFEFF/, '');
  const lostAt = lineOfLostLetter(text);
  if (lostAt !== undefined) {
    const { message, ...detail } = lostLetter;
    return unreadable(problem('csv-syntax', { file, row: lostAt }, message, detail));
  }
  const delimiter = delimiterOf(text);
  const excess = excessOf(file, text, delimiter);
  if (excess !== undefined) return unreadable(excess);
  const parsed = Papa.parse<string[]>(text, { delimiter, skipEmptyLines: false });
  const torn = parsed.errors.find((error) => error.type === 'Quotes');
  if (torn !== undefined) {
    const place = { file, row: (torn.row ?? 0) + 1 };
    return unreadable(
      problem('csv-syntax', place, 'A quotation mark is opened and not closed, or stands inside a cell.', {
        accepted: 'cells in "quotes", with a quotation mark inside doubled: ""',
        mend: 'Close the quotation mark, or double it where it is part of the text, as in "5/32""".',
      }),
    );
  }
  const problems: Problem[] = [];
  const top = Math.max(
    0,
    parsed.data.findIndex((raw) => raw.some((cell) => cell.trim() !== '')),
  );
  const headings = (parsed.data[top] ?? []).map(parseHeading);
  const width = headings.length;
  while (headings.length > 0 && headings.at(-1)?.id === '') headings.pop();
  const rows: { row: number; cells: string[] }[] = [];
  parsed.data.slice(top + 1).forEach((raw, index) => {
    const cells = raw.map((cell) => cell.trim());
    if (cells.every((cell) => cell === '')) return;
    const row = top + index + 2;
    const surplus = cells.slice(headings.length).find((cell) => cell !== '');
    if (surplus !== undefined) {
      problems.push(
        problem('cell-surplus', { file, row }, `“${surplus}” stands beyond the last heading.`, {
          found: surplus,
          accepted: `${headings.length} cells, one for each heading`,
          mend: `Look for a ${nameOfMark[delimiter] ?? 'separator'} too many in the row, and put a cell that holds one in "quotes"; or give the column a heading.`,
        }),
      );
    }
    rows.push({ row, cells });
  });
  return { file, headingRow: top + 1, headings, width, mark: delimiter, rows, problems, torn: false };
}

const nameOfMark: Readonly<Partial<Record<string, string>>> = { ',': 'comma', ';': 'semicolon', '\t': 'tab' };

/** Counted before anything is parsed: every row and cell takes a multiple of what it takes in the file. */
function excessOf(file: string, text: string, delimiter: string): Problem | undefined {
  let lines = 1;
  let marks = 0;
  let inLine = 0;
  let most = 0;
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at];
    if (letter === '\n' || (letter === '\r' && text[at + 1] !== '\n')) {
      lines += 1;
      inLine = 0;
    } else if (letter === delimiter) {
      marks += 1;
      inLine += 1;
      most = Math.max(most, inLine);
    }
  }
  const place = { file };
  const mend = 'Take out what is not of this book, or keep it in another table.';
  if (lines > mostRows) return tooLarge(place, `The table has ${lines} lines`, mostRows, mend);
  if (most >= mostHeadings)
    return tooLarge(place, `A line of the table has ${most + 1} cells`, mostHeadings, mend);
  return lines + marks > mostCells
    ? tooLarge(place, `The table has ${lines + marks} cells`, mostCells, mend)
    : undefined;
}

/** What follows the fault is one long cell, or letters that mean something else: to judge it would only hide the fault. */
function unreadable(fault: Problem): CsvFile {
  return {
    file: fault.where.file,
    headingRow: 1,
    headings: [],
    width: 0,
    mark: ',',
    rows: [],
    problems: [fault],
    torn: true,
  };
}

/** The separator that stands most often in the heading line, outside quotes. */
export function delimiterOf(text: string): string {
  const line = (/^.*[^\s,;].*$/m.exec(text)?.[0] ?? '').replace(/"[^"]*"/g, '');
  const counts = [',', ';', '\t'].map((mark) => ({ mark, count: line.split(mark).length }));
  return counts.reduce((best, each) => (each.count > best.count ? each : best)).mark;
}

/** A longer heading names no column, and must not cost the time to look for a unit in it. */
const longestHeading = 200;

/** `Woven length (in)` names the column `woven_length` and says that bare numbers in it are inches. */
export function parseHeading(text: string): CsvHeading {
  const trimmed = text.trim();
  const withUnit =
    trimmed.length > longestHeading ? null : /^(.*?)\s*(?:\(([^)]*)\)|,\s*([a-z]+))$/i.exec(trimmed);
  const word = withUnit?.[2] ?? withUnit?.[3] ?? '';
  const unit = lengthUnit(word);
  const measure =
    unit === undefined && (isWeightWord(word) || forceUnit(word) !== undefined) ? word : undefined;
  const name = unit === undefined && measure === undefined ? trimmed : (withUnit?.[1] ?? '');
  const id = name.toLowerCase().replace(/[\s-]+/g, '_');
  if (unit !== undefined) return { text: trimmed, id, unit };
  return measure === undefined ? { text: trimmed, id } : { text: trimmed, id, measure };
}
