import { csvCell } from '../book/files/csvCells.ts';
import { parseCsv } from '../book/files/csvFile.ts';
import { type Problem, problem } from '../book/problems/problem.ts';

/** A figure of a month that is handed over: an amount of the journal, or stock at its end. */
export interface MonthFigure {
  /** `journal`, `materials`, `finished goods`, or the `terms` that the month was reckoned with. */
  readonly part: string;
  readonly name: string;
  /** `debit`, `credit`, what is to say of one, `quantity` or `value`; of a term what it is. */
  readonly figure: string;
  /** A decimal with a point, or an account code: what a file holds and is compared by. */
  readonly value: string;
}

/** A month as it was closed. */
export interface ClosedMonth {
  /** `2026-10`. */
  readonly month: string;
  /** The day of closing, ISO 8601. */
  readonly closedOn: string;
  readonly currency: string;
  readonly figures: readonly MonthFigure[];
}

/** A figure that is another one now than when the month was closed; null where there was or is none. */
export interface ChangedFigure {
  readonly part: string;
  readonly name: string;
  readonly figure: string;
  readonly closed: string | null;
  readonly now: string | null;
}

/** The part of a closed month that holds its terms. */
export const termsPart = 'terms';

const folder = 'closed/';
const headings = ['part', 'name', 'figure', 'value'];
const about = 'month';
/** What is kept of a line of the journal beside its amount, by the words that begin the figure's name. */
export const ofLine = {
  account: 'account of the ',
  posting: 'posting of the ',
  channel: 'channel of the ',
} as const;

/** The file that holds a closed month, within the book's folder. */
export function closedFile(month: string): string {
  return `${folder}${month}.csv`;
}

/** The month that a file holds as closed; undefined where it is none of those. */
export function monthOfClosedFile(file: string): string | undefined {
  return /^closed\/(\d{4}-\d{2})\.csv$/.exec(file)?.[1];
}

/**
 * A closed month as a file: a table with one figure a row, and a digest of all that stands above it, by which a change
 * of the file itself is seen. Decimals have a point and cells a comma between them, whatever the book's notation.
 *
 * @param sha256 the digest of a text in hexadecimal digits
 */
export function closedText(closed: ClosedMonth, sha256: (text: string) => string): string {
  const rows = [
    headings,
    [about, '', 'month', closed.month],
    [about, '', 'closed on', closed.closedOn],
    [about, '', 'currency', closed.currency],
    ...closed.figures.map(({ part, name, figure, value }) => [part, name, figure, value]),
  ];
  const body = rows
    .map((row) => `${row.map((cell) => csvCell(guarded(cell), ',', false)).join(',')}\n`)
    .join('');
  return `${body}${about},,digest,${sha256(body)}\n`;
}

/** Reads a closed month. A file that was changed after closing is a problem: nobody knows what it said. */
export function readClosed(
  file: string,
  text: string,
  sha256: (text: string) => string,
): { readonly closed?: ClosedMonth; readonly problems: readonly Problem[] } {
  const plain = text.replace(/^\uFEFF/, '').replaceAll('\r\n', '\n');
  const found = /^month,,digest,([0-9a-f]{64})\n?$/m.exec(plain);
  const body = found === null ? plain : plain.slice(0, found.index);
  const csv = parseCsv(file, body);
  const rows = csv.rows.map(({ cells }) => cells.map(unguarded));
  const value = (figure: string): string | undefined =>
    rows.find((row) => row[0] === about && row[2] === figure)?.[3];
  const month = value('month');
  if (
    found?.[1] !== sha256(body) ||
    csv.problems.length > 0 ||
    month === undefined ||
    month !== monthOfClosedFile(file)
  ) {
    return {
      problems: [
        problem('month-closed', { file }, 'This file was changed after the month was closed.', {
          accepted: 'the file as sennit month --close wrote it',
          mend: 'Put back the file from a copy or from version control; or remove it, and close the month anew.',
        }),
      ],
    };
  }
  return {
    closed: {
      month,
      closedOn: value('closed on') ?? '',
      currency: value('currency') ?? '',
      figures: rows
        .filter(([part]) => part !== about)
        .map(([part = '', name = '', figure = '', own = '']) => ({ part, name, figure, value: own })),
    },
    problems: [],
  };
}

/** Figures that differ from what was closed: those of the journal first, as they stand in it. Terms are no figures. */
export function changedFigures(closed: readonly MonthFigure[], now: readonly MonthFigure[]): ChangedFigure[] {
  const keyOf = ({ part, name, figure }: MonthFigure): string => [part, name, figure].join('|');
  const isFigure = ({ part }: MonthFigure): boolean => part !== termsPart;
  const before = new Map(closed.map((each) => [keyOf(each), each.value]));
  const today = new Map(now.map((each) => [keyOf(each), each.value]));
  const all = [...closed, ...now.filter((each) => !before.has(keyOf(each)))].filter(isFigure);
  const changes = all.flatMap((each) => {
    const { part, name, figure } = each;
    const change = { closed: before.get(keyOf(each)) ?? null, now: today.get(keyOf(each)) ?? null };
    return change.closed === change.now ? [] : [{ part, name, figure, ...change }];
  });
  const isOfLine = ({ figure, closed: was, now: is }: ChangedFigure): boolean =>
    Object.values(ofLine).some((each) => figure.startsWith(each)) && (was === null || is === null);
  // Of a line that came or went, its amount says enough.
  const told = changes.filter((each) => !isOfLine(each));
  return [...told.filter(({ part }) => part === 'journal'), ...told.filter(({ part }) => part !== 'journal')];
}

/** A cell that a spreadsheet program would take for a formula begins with an apostrophe, as one that has one does. */
function guarded(cell: string): string {
  return /^['=+\-@\t\r]/.test(cell) && !/^-?\d+(\.\d+)?$/.test(cell) ? `'${cell}` : cell;
}

function unguarded(cell: string): string {
  return cell.startsWith("'") ? cell.slice(1) : cell;
}
