import { problemText } from '../../engine/index.ts';
import type { TakeinChange, TakeinReport } from '../../engine/takeinBook.ts';
import { count } from './showProblems.ts';
import type { Style } from './style.ts';
import { type TableColumn, type TableRow, table, wrap } from './table.ts';

interface How {
  readonly width: number;
  readonly style: Style;
  readonly book: string;
  readonly prefer: 'workbook' | 'book' | undefined;
}

/** What a workbook brings: one line of summary, the changes sheet by sheet, conflicts, what is left alone. */
export function showTakein(report: TakeinReport, how: How): string {
  if (report.written === undefined) return '';
  const parts = [
    wrap(summary(report, how), how.width).join('\n'),
    changesTable(report.changes, how),
    conflictsTable(report, how),
    leftAlone(report, how),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function summary(
  { changes, changedSince, conflicts, written, problems }: TakeinReport,
  { book }: How,
): string {
  const of = (how: TakeinChange['how']): TakeinChange[] => changes.filter((each) => each.how === how);
  const rows = (all: readonly TakeinChange[]): number =>
    new Set(all.map(({ file, row, cell }) => `${file} ${row} ${cell.replace(/^[A-Z]+/, '')}`)).size;
  const counted = [
    count(of('changed').length, 'changed figure'),
    count(rows(of('added')), 'new row'),
    count(of('removed').length, 'removed row'),
    count(conflicts.length, 'conflict'),
  ].filter((part) => part !== '');
  const since =
    changedSince.length === 0
      ? `The book is as it was when the workbook was written (${written}).`
      : `Since the workbook was written (${written}) the book was changed as well: ${changedSince.join(', ')}.`;
  if (problems.length > 0 && counted.length === 0)
    return `The workbook cannot be taken in as it is. ${since}`;
  return counted.length === 0
    ? `Nothing to take in: the workbook says what ${book} says. ${since}`
    : `${counted.join(', ')}. ${since}`;
}

function changesTable(changes: readonly TakeinChange[], { width, style }: How): string {
  if (changes.length === 0) return '';
  const columns: TableColumn[] = [
    { heading: 'Cell', align: 'left' },
    { heading: 'Row', align: 'left' },
    { heading: 'Figure', align: 'left' },
    { heading: 'Old', align: 'right' },
    { heading: 'New', align: 'right' },
  ];
  const rows: TableRow[] = [];
  let sheet: string | undefined;
  for (const each of changes) {
    if (each.sheet !== sheet) rows.push({ group: `${each.sheet} (${each.file})` });
    sheet = each.sheet;
    if (each.how === 'removed') rows.push([each.cell, each.row, 'the whole row', each.before, 'removed']);
    else
      rows.push([
        each.cell,
        each.row,
        each.heading,
        each.how === 'added' ? 'new row' : blank(each.before),
        blank(each.after),
      ]);
  }
  return table(columns, rows, width, style).trimEnd();
}

function blank(text: string): string {
  return text === '' ? 'blank' : text;
}

function conflictsTable({ conflicts }: TakeinReport, { width, style, prefer }: How): string {
  if (conflicts.length === 0) return '';
  const columns: TableColumn[] = [
    { heading: 'Changed in both', align: 'left' },
    { heading: 'Row', align: 'left' },
    { heading: 'Figure', align: 'left' },
    { heading: 'As written', align: 'right' },
    { heading: 'Workbook', align: 'right' },
    { heading: 'Book', align: 'right' },
  ];
  const rows = conflicts.map((each) => [
    `${each.sheet} ${each.cell}`.trim(),
    each.row,
    each.heading,
    blank(each.written),
    blank(each.workbook),
    blank(each.book),
  ]);
  const told =
    prefer === undefined
      ? 'Both were changed since the workbook was written. Add --prefer workbook or --prefer book, or make the two alike.'
      : `The value of the ${prefer} stands.`;
  const said = wrap(told, width).join('\n');
  return `${table(columns, rows, width, style)}${prefer === undefined ? style.bad(said) : said}`;
}

/** More lines than this are counted. */
const mostRemarks = 12;

function leftAlone({ remarks }: TakeinReport, { width, style }: How): string {
  if (remarks.length === 0) return '';
  const told = remarks.slice(0, mostRemarks).map((each) =>
    wrap(
      problemText(each)
        .trimEnd()
        .split('\n')
        .map((line) => line.trim())
        .join(' '),
      width - 2,
    ).join('\n  '),
  );
  const more = remarks.length - told.length;
  const rest = more > 0 ? [`and ${more} more (--json lists them all)`] : [];
  return `${style.heading('Good to know')}\n${[...told, ...rest].map((line) => `  ${line}`).join('\n')}`;
}
