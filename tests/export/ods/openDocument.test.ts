import ExcelJS from 'exceljs';
import { strFromU8, unzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { openDocument } from '../../../engine/export/ods/openDocument.ts';
import { type OdsCell, writtenOds } from '../../support/odsParts.ts';
import { childElements, elementsWithin, type XmlElement } from '../../support/xmlTree.ts';

const none: XmlElement = { name: '', attributes: {}, children: [] };

/** A workbook of one sheet, filled by the test. */
function bookWith(fill: (page: ExcelJS.Worksheet, book: ExcelJS.Workbook) => void): ExcelJS.Workbook {
  const book = new ExcelJS.Workbook();
  const page = book.addWorksheet('One & "two"');
  const margins = { left: 0.5, right: 0.5, top: 0.8, bottom: 0.7, header: 0.35, footer: 0.35 };
  page.pageSetup = { paperSize: 9, orientation: 'landscape', fitToPage: true, fitToWidth: 1, margins };
  book.title = 'A <title>';
  book.creator = 'Tests';
  book.lastModifiedBy = 'Tests';
  book.created = new Date('2026-03-02');
  book.modified = book.created;
  fill(page, book);
  return book;
}

function cellsWith(fill: (page: ExcelJS.Worksheet) => void): (address: string) => Partial<OdsCell> {
  const { sheets } = writtenOds(openDocument(bookWith(fill), '2026-03-02'));
  return (address) => sheets.get('One & "two"')?.cells.get(address) ?? {};
}

test('the type of the file stands uncompressed at its very beginning (ODF 1.3 part 2, 3.3)', () => {
  const bytes = openDocument(
    bookWith(() => {}),
    '2026-03-02',
  );
  // A local file header of a zip archive: 30 bytes, then the name, then (without extra field) the data.
  const header = new DataView(bytes.buffer, bytes.byteOffset);
  expect(header.getUint32(0, true)).toBe(0x04034b50);
  expect(header.getUint16(8, true)).toBe(0);
  expect(header.getUint16(28, true)).toBe(0);
  expect(strFromU8(bytes.slice(30, 38 + 46))).toBe('mimetypeapplication/vnd.oasis.opendocument.spreadsheet');
});

test('the manifest lists every part, and each says its version', () => {
  const bytes = openDocument(
    bookWith(() => {}),
    '2026-03-02',
  );
  const { parts } = writtenOds(bytes);
  const files = Object.keys(unzipSync(bytes)).filter((name) => !/^(mimetype|META-INF\/.*)$/.test(name));
  const listed = elementsWithin(parts.get('META-INF/manifest.xml') ?? none, 'manifest:file-entry').map(
    ({ attributes }) => attributes['manifest:full-path'],
  );
  expect(listed).toEqual(['/', ...files]);
  for (const file of files) expect(parts.get(file)?.attributes['office:version'], file).toBe('1.3');
  const meta = elementsWithin(parts.get('meta.xml') ?? none, 'dc:title')[0];
  expect(meta?.children).toEqual(['A <title>']);
});

test('values are typed as what they are', () => {
  const cell = cellsWith((page) => {
    page.getCell('A1').value = 0;
    page.getCell('A2').value = 0.25;
    page.getCell('A2').numFmt = '0.0 %';
    page.getCell('A3').value = false;
    page.getCell('A4').value = new Date('2026-03-02');
    page.getCell('A4').numFmt = 'yyyy-mm-dd';
    page.getCell('A5').value = '=1+1';
    page.getCell('A6').value = { formula: 'A1+1', result: 1 };
    page.getCell('A7').value = { formula: 'A1&""', result: '' };
    page.getCell('A8').value = { formula: '1/A1', result: { error: '#DIV/0!' } };
    page.getCell('A9').value = { formula: 'B9' } as ExcelJS.CellFormulaValue;
    page.getCell('A10').value = { formula: 'A1=0', result: true };
    page.getCell('A11').value = 1e-7;
    page.getCell('A12').value = 123456789.125;
    page.getCell('A13').value = { formula: 'A1*2', result: 0 };
    page.getCell('A14').value = { formula: 'A1>1', result: false };
    page.getCell('A15').value = 'a\tb';
  });
  const told = Array.from({ length: 15 }, (_, at) => {
    const { formula, type, value } = cell(`A${at + 1}`);
    return [formula, type, value];
  });
  expect(told).toEqual([
    [undefined, 'float', '0'],
    [undefined, 'percentage', '0.25'],
    [undefined, 'boolean', 'false'],
    [undefined, 'date', '2026-03-02'],
    [undefined, 'string', '=1+1'],
    ['of:=[.A1]+1', 'float', '1'],
    ['of:=[.A1]&""', 'string', ''],
    ['of:=1/[.A1]', 'string', ''],
    ['of:=[.B9]', undefined, undefined],
    ['of:=[.A1]=0', 'boolean', 'true'],
    [undefined, 'float', '1e-7'],
    [undefined, 'float', '123456789.125'],
    ['of:=[.A1]*2', 'float', '0'],
    ['of:=[.A1]>1', 'boolean', 'false'],
    [undefined, 'string', 'a\tb'],
  ]);
  expect(cell('A8').xml?.attributes['calcext:value-type']).toBe('error');
  expect(childElements(cell('A8').xml ?? none)[0]?.children).toEqual(['#DIV/0!']);
});

test('cells stand where they stood, blanks counted, merged ones as one', () => {
  const cell = cellsWith((page) => {
    page.getCell('D2').value = 'far';
    page.mergeCells('B4:C5');
    page.getCell('B4').value = 'wide';
    page.getCell('D5').value = 'after';
    page.getCell('A7').value = 'last';
  });
  expect([cell('D2').value, cell('B4').value, cell('D5').value, cell('A7').value]).toEqual([
    'far',
    'wide',
    'after',
    'last',
  ]);
  expect(cell('B4').xml?.attributes).toMatchObject({
    'table:number-columns-spanned': '2',
    'table:number-rows-spanned': '2',
  });
  for (const covered of ['C4', 'B5', 'C5']) expect(cell(covered).xml?.name).toBe('table:covered-table-cell');
});

test('widths, heights, hidden columns and hidden sheets are kept', () => {
  const book = bookWith((page, all) => {
    page.getCell('C3').value = 1;
    page.getColumn(1).width = 20;
    page.getColumn(2).hidden = true;
    page.getRow(3).height = 29;
    all.addWorksheet('Away', { state: 'hidden' }).pageSetup = page.pageSetup;
  });
  const { sheets, styles } = writtenOds(openDocument(book, '2026-03-02'));
  const table = sheets.get('One & "two"')?.table ?? none;
  const columns = elementsWithin(table, 'table:table-column');
  const styleOf = (element: XmlElement | undefined): string =>
    JSON.stringify(styles.get(element?.attributes['table:style-name'] ?? '')?.children);
  expect(styleOf(columns[0])).toContain('"style:column-width":"120pt"');
  expect(columns.map(({ attributes }) => attributes['table:visibility'])).toEqual([
    undefined,
    'collapse',
    undefined,
  ]);
  expect(styleOf(elementsWithin(table, 'table:table-row')[2])).toContain('"style:row-height":"29pt"');
  expect(styleOf(table)).toContain('"table:display":"true"');
  expect(styleOf(sheets.get('Away')?.table)).toContain('"table:display":"false"');
});

test('a header in codes is put apart: sides, doubled ampersands, sheet and pages', () => {
  const book = bookWith((page) => {
    page.headerFooter.oddHeader =
      '&L&"Arial,Regular"&10 3 Knots && Co <&P>\nsecond  line&R&"Arial,Regular"&10&A';
    page.headerFooter.oddFooter = '&CPage &P of &N';
  });
  const { parts } = writtenOds(openDocument(book, '2026-03-02'));
  const master = elementsWithin(parts.get('styles.xml') ?? none, 'style:master-page')[0] ?? none;
  const shown = (element: XmlElement): string =>
    element.children
      .map((child) => {
        if (typeof child === 'string') return child;
        if (child.name === 'text:s') return ' ';
        return /^text:(sheet-name|page-number|page-count)$/.test(child.name)
          ? `{${child.name}}`
          : shown(child);
      })
      .join('');
  const linesOf = (side: string): string[] =>
    elementsWithin(master, `style:region-${side}`).flatMap((region) =>
      childElements(region, 'text:p').map(shown),
    );
  expect(linesOf('left')).toEqual(['3 Knots & Co <{text:page-number}>', 'second  line']);
  expect(linesOf('right')).toEqual(['{text:sheet-name}']);
  expect(linesOf('center')).toEqual(['Page {text:page-number} of {text:page-count}']);
  const [layout] = elementsWithin(parts.get('styles.xml') ?? none, 'style:page-layout-properties');
  expect(layout?.attributes).toMatchObject({
    'style:first-page-number': 'continue',
    'style:scale-to-X': '1',
    'fo:page-width': '297mm',
  });
});

test('what a workbook of ours never holds is refused, not lost', () => {
  const write = (fill: (page: ExcelJS.Worksheet) => void) => () => openDocument(bookWith(fill), '2026-03-02');
  expect(
    write((page) => {
      page.getCell('A1').value = { text: 'x', hyperlink: 'https://example.org/' };
    }),
  ).toThrow('No link inside the workbook');
  expect(
    write((page) => {
      page.getCell('A1').value = { richText: [{ text: 'x' }] };
    }),
  ).toThrow('No value of the workbook');
  expect(
    write((page) => {
      page.addConditionalFormatting({
        ref: 'A1',
        rules: [{ type: 'top10', rank: 1, percent: false, bottom: false, priority: 1, style: {} }],
      });
    }),
  ).toThrow('No rule of the workbook');
  expect(
    write((page) => {
      page.getCell('A1').dataValidation = { type: 'textLength', formulae: [1, 2] };
    }),
  ).toThrow('No rule of the workbook');
});
