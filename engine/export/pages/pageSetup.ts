import type { PageSetup, PaperSize, Worksheet } from 'exceljs';
import type { Settings } from '../../book/settings.ts';
import { columnLetters } from '../../sheets/address.ts';
import { headingRow } from '../../sheets/planIndex.ts';
import { fontName } from '../palette.ts';
import { shorten } from '../shorten.ts';
import type { FrontPage } from './startText.ts';
import { textWidth } from './widths.ts';

/** What every page says around its figures. */
export interface About {
  /** ISO date. */
  readonly date: string;
  readonly version: string;
  /** The first page of a workbook that is not of costs and prices. */
  readonly front?: FrontPage;
}

/** How a sheet is to be printed. */
export interface Printing {
  /** Columns repeated on the left where the sheet takes more than one page across. */
  readonly keyColumns: number;
  readonly lastRow: number;
  /** Put onto a single page, upright since it is read like a letter. */
  readonly onePage: boolean;
  /** Headings without a row below them, which need no second page: the sentence says that there is nothing. */
  readonly empty: boolean;
  /** A column, counted from 1, that is there and takes no room. */
  readonly hiddenColumn?: number;
}

const letterPaper = 1;
const a4Paper = 9;
/** Column widths on a landscape page at full size: 7 dots of 1/96 inch each, within the margins. */
export const widthsOnPage = 136;
/** Height of a landscape page within the margins, in points, on the shorter of the two papers. */
const pointsOnPage = 500;
const pointsOfRow = 15;
/** Below this scale, ten-point text is under six and a half points: then a sheet takes another page across instead. */
const leastScale = 0.65;
/** What fits onto one page across at that scale. */
export const roomOnPage: number = widthsOnPage / leastScale;
/** Of a page that repeats columns, so much at most is theirs. */
const mostRepeated = 0.5;
/** A last page with less than this share of a page on it is saved by making the sheet that much smaller. */
const smallRest = 0.18;

/** Spreadsheet programs refuse a file with a longer header or footer, its codes counted in. */
const mostHeader = 255;
/** Of the header's length, for the title: the sentence below it needs some too. */
const mostTitle = 100;
/** Of a workshop's name, wherever it stands in a title. */
const mostWorkshop = 200;
/** Beyond so many columns on the first page nobody reads on, and the format ends at 16,384. */
const mostForSentence = 100;

/** In inches. */
export const margins = { left: 0.5, right: 0.5, top: 0.8, bottom: 0.7, header: 0.35, footer: 0.35 } as const;

export function paperOf(settings: Settings): number {
  return settings.lengthUnit === 'in' ? letterPaper : a4Paper;
}

/** Print set-up: landscape (a single page upright), whole pages, headings and keys on each, and who, what, when, which page. */
export function setUpPage(page: Worksheet, settings: Settings, about: About, printing: Printing): void {
  const widths = Array.from({ length: page.columnCount }, (_, at) => page.getColumn(at + 1).width ?? 9);
  const total = widths.reduce((sum, width) => sum + width, 0);
  const repeated = repeatedColumns(widths, printing.keyColumns);
  const keys = widths.slice(0, repeated).reduce((sum, width) => sum + width, 0);
  const { empty } = printing;
  const across = empty || total <= roomOnPage ? 1 : Math.ceil((total - keys) / (roomOnPage - keys));
  const single = across === 1;
  // Over several pages the sentence would be cut at the repeated columns: it goes into the header instead.
  const letters = columnLetters(
    (single
      ? columnsForSentence(page, widths, empty ? 0 : widths.length, printing.hiddenColumn)
      : widths.length) - 1,
  );
  const repeat: Partial<PageSetup> = single
    ? { printTitlesRow: `1:${headingRow}` }
    : {
        printTitlesRow: `${headingRow}:${headingRow}`,
        ...(repeated > 0 ? { printTitlesColumn: `A:${columnLetters(repeated - 1)}` } : {}),
      };
  page.pageSetup = {
    ...page.pageSetup,
    paperSize: paperOf(settings) as PaperSize,
    orientation: printing.onePage ? 'portrait' : 'landscape',
    fitToPage: true,
    fitToWidth: across,
    fitToHeight: printing.onePage ? 1 : pagesDown((total + keys * (across - 1)) / across, printing.lastRow),
    // exceljs puts a dollar before each end; the one before the row has to be given.
    printArea: `A$${single ? 1 : headingRow}:${letters}$${printing.lastRow}`,
    margins,
    ...repeat,
  };
  const style = `&"${fontName},Regular"&10`;
  const right = `&R${style}&A`;
  const left = `&L${style}${fitting(titleOf(settings, about), mostTitle)}`;
  const rest = mostHeader - left.length - right.length - 1;
  const sentence = single ? '' : `\n${fitting(String(page.getCell('A1').value ?? ''), rest)}`;
  page.headerFooter = {
    oddHeader: `${left}${sentence}${right}`,
    oddFooter: `&L${style}${plain(`Sennit ${about.version}`)}&C${style}${plain(about.date)}&R${style}Page &P of &N`,
  };
}

export function titleOf(settings: Settings, { front }: Pick<About, 'front'> = {}): string {
  const workshop = shorten(settings.workshop, mostWorkshop);
  const subject = front?.subject ?? 'costs and prices';
  return workshop === ''
    ? `${subject.slice(0, 1).toUpperCase()}${subject.slice(1)}`
    : `${workshop}: ${subject}`;
}

/** Keys that stand on every page across; the last ones give way to figures where they would take most of it. */
function repeatedColumns(widths: readonly number[], keyColumns: number): number {
  let count = 0;
  let taken = 0;
  while (count < keyColumns) {
    taken += widths[count] ?? 0;
    if (taken > roomOnPage * mostRepeated) break;
    count += 1;
  }
  return count;
}

/** Pages down, or 0 for as many as it takes: a last page with two rows on it is not worth its paper. */
function pagesDown(widthOfPage: number, rows: number): number {
  const scale = Math.min(1, widthsOnPage / widthOfPage);
  const pages = (rows * pointsOfRow * scale) / pointsOnPage;
  const whole = Math.floor(pages);
  const squeezed = (scale * whole) / pages;
  return whole >= 1 && pages - whole <= smallRest * whole && squeezed >= leastScale ? whole : 0;
}

/** The sentence of the first row runs on over its neighbours; the print area has to reach its end. */
function columnsForSentence(
  page: Worksheet,
  widths: readonly number[],
  least: number,
  hidden: number | undefined,
): number {
  const sentence = textWidth(String(page.getCell('A1').value ?? '')) * 1.4;
  let columns = 0;
  let reached = 0;
  while (columns < least || (reached < sentence && columns < mostForSentence)) {
    columns += 1;
    if (columns !== hidden) reached += widths[columns - 1] ?? 9;
  }
  return columns;
}

/** As much of a text as fits into a header beside its codes. */
function fitting(text: string, most: number): string {
  const whole = plain(text);
  if (whole.length <= most) return whole;
  let letters = most;
  while (plain(shorten(text, letters)).length > most) letters -= 1;
  return plain(shorten(text, letters));
}

/** An ampersand starts a code in a header; a digit after the font size would be read as part of it. */
function plain(text: string): string {
  const doubled = text.replaceAll('&', '&&');
  return /^\d/.test(doubled) ? ` ${doubled}` : doubled;
}
