import type { PageSetup, Worksheet } from 'exceljs';
import { element } from '../xml.ts';
import { plainType, textProperties } from './cellProperties.ts';
import { lineContent } from './paragraphs.ts';

/** Long and short side of a sheet of paper, by the number that page set-ups know it by. */
const papers: ReadonlyMap<number, readonly [long: string, short: string]> = new Map([
  [1, ['11in', '8.5in']],
  [9, ['297mm', '210mm']],
]);

/** The text style of headers and footers. */
const headerType = 'HeaderText';

/** Page styles of a workbook: one a sheet, as each says how many pages its sheet is to take. */
export interface PageStyles {
  readonly layouts: string;
  readonly masterPages: string;
}

export function masterPageName(at: number): string {
  return `Page${at + 1}`;
}

export function pageStyles(pages: readonly Worksheet[]): PageStyles {
  const type = element(
    'style:style',
    { 'style:name': headerType, 'style:family': 'text' },
    element('style:text-properties', textProperties(plainType)),
  );
  return {
    layouts: type + pages.map((page, at) => pageLayout(page.pageSetup, `Layout${at + 1}`)).join(''),
    masterPages: pages.map((page, at) => masterPage(page, at)).join(''),
  };
}

/** Margins of a page set-up reach to the cells; here the header stands between its own margin and the cells. */
function pageLayout(setup: Partial<PageSetup>, name: string): string {
  const { margins, fitToPage, fitToWidth, fitToHeight, orientation, paperSize } = setup;
  const paper = papers.get(Number(paperSize));
  if (margins === undefined || paper === undefined) throw new Error('A page without paper or margins');
  const [long, short] = paper;
  const isLandscape = orientation === 'landscape';
  const inches = (length: number): string => `${Math.round(length * 1000) / 1000}in`;
  // Nothing said means as many pages as it takes; a 0 would mean the same only to some.
  const pages = (count: number | undefined): number | undefined =>
    fitToPage ? count || undefined : undefined;
  const band = (side: 'header' | 'footer', height: number, gap: string): string =>
    element(
      `style:${side}-style`,
      {},
      element('style:header-footer-properties', {
        'fo:min-height': inches(height),
        'fo:margin-left': '0in',
        'fo:margin-right': '0in',
        [gap]: '0.1in',
      }),
    );
  return element(
    'style:page-layout',
    { 'style:name': name },
    element('style:page-layout-properties', {
      'fo:page-width': isLandscape ? long : short,
      'fo:page-height': isLandscape ? short : long,
      'style:print-orientation': isLandscape ? 'landscape' : 'portrait',
      'fo:margin-top': inches(margins.header),
      'fo:margin-bottom': inches(margins.footer),
      'fo:margin-left': inches(margins.left),
      'fo:margin-right': inches(margins.right),
      'style:print-page-order': 'ttb',
      // Pages are counted through the workbook, not sheet by sheet.
      'style:first-page-number': 'continue',
      'style:scale-to-X': pages(fitToWidth),
      'style:scale-to-Y': pages(fitToHeight),
      'style:writing-mode': 'lr-tb',
      'style:print': 'charts drawings objects zero-values',
    }),
    band('header', margins.top - margins.header, 'fo:margin-bottom'),
    band('footer', margins.bottom - margins.footer, 'fo:margin-top'),
  );
}

function masterPage(page: Worksheet, at: number): string {
  const { oddHeader, oddFooter } = page.headerFooter;
  return element(
    'style:master-page',
    { 'style:name': masterPageName(at), 'style:page-layout-name': `Layout${at + 1}` },
    element('style:header', {}, regions(oddHeader ?? '')),
    element('style:header-left', { 'style:display': false }),
    element('style:footer', {}, regions(oddFooter ?? '')),
    element('style:footer-left', { 'style:display': false }),
  );
}

const sides = [
  ['L', 'left'],
  ['C', 'center'],
  ['R', 'right'],
] as const;

/** Left, centre and right of a header that is written in codes: `&L…&C…&R…`. */
function regions(codes: string): string {
  const texts = new Map<string, string>();
  let side = 'C';
  // A doubled ampersand stands for itself; a font and a size before the text are those of all our headers.
  for (const [piece] of codes.matchAll(/&&|&"[^"]*"|&\d+ ?|&[A-Z]|[^&]+/g)) {
    if (/^&[LCR]$/.test(piece)) side = piece.charAt(1);
    else texts.set(side, (texts.get(side) ?? '') + pieceXml(piece));
  }
  return sides
    .map(([code, name]) => {
      const text = texts.get(code);
      if (text === undefined) return '';
      const lines = text
        .split('\n')
        .map((line) => element('text:p', {}, element('text:span', { 'text:style-name': headerType }, line)));
      return element(`style:region-${name}`, {}, ...lines);
    })
    .join('');
}

/** A new line stays one: the pieces of a region are put together first. */
function pieceXml(piece: string): string {
  switch (piece) {
    case '&&':
      return '&amp;';
    case '&A':
      return element('text:sheet-name', {}, '???');
    case '&P':
      return element('text:page-number', {}, '1');
    case '&N':
      return element('text:page-count', {}, '1');
    default:
      return piece.startsWith('&') ? '' : piece.split('\n').map(lineContent).join('\n');
  }
}
