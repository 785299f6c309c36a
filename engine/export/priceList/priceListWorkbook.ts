import ExcelJS, { type Borders, type Cell, type PageSetup, type PaperSize, type Worksheet } from 'exceljs';
import type { Settings } from '../../book/settings.ts';
import { columnLetters } from '../../sheets/address.ts';
import { cellText } from '../pages/cellContent.ts';
import { font, ground } from '../pages/cellStyles.ts';
import { numberFormat, textFormat } from '../pages/numberFormats.ts';
import { paperOf } from '../pages/pageSetup.ts';
import { boldFactor, rowHeight, textWidth, wrappedLines } from '../pages/widths.ts';
import { accent, fontName, ink, line, quiet, titleSize } from '../palette.ts';
import { packFile } from '../xlsx/packFile.ts';
import {
  hasSizes,
  listSentences,
  listTitle,
  type PriceColumn,
  priceColumns,
  sizeWords,
  validFrom,
} from './listWords.ts';
import type { ListedPrice, ListedProduct, ListedSize, PriceList } from './priceList.ts';

/** Soft ink: what is said beside a price. */
const soft = 'FF4A5661';
/** Widths in characters: names and sizes wrap beyond these. */
const widestName = 40;
const widestSizes = 26;
const priceWidth = 12;
/** Air beside the words of a cell. */
const padding = 2;

/**
 * A price list as a workbook of one sheet that holds values and nothing else: no formula, no name, no note and no
 * second sheet that could tell what a price is made of. The same list and date give the same bytes.
 *
 * @param date of writing, ISO
 */
export async function priceListWorkbook(
  list: PriceList,
  settings: Settings,
  date: string,
): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  const day = new Date(`${date}T00:00:00Z`);
  book.creator = cellText(list.workshop);
  book.lastModifiedBy = book.creator;
  book.created = day;
  book.modified = day;
  book.title = cellText([listTitle(list), list.workshop].filter((each) => each !== '').join(': '));
  const page = book.addWorksheet(listTitle(list), {
    properties: { tabColor: { argb: accent } },
    views: [{ showGridLines: false }],
  });
  const writer = new ListWriter(page, list, settings);
  writer.write();
  const bytes = await book.xlsx.writeBuffer({
    zip: { compression: 'STORE' },
  } as Partial<ExcelJS.XlsxWriteOptions>);
  return packFile(new Uint8Array(bytes as ArrayBuffer), date);
}

const left = { vertical: 'top', horizontal: 'left', wrapText: true } as const;
const bottomRule = (argb: string): Partial<Borders> => ({ bottom: { style: 'thin', color: { argb } } });

class ListWriter {
  readonly #page: Worksheet;
  readonly #list: PriceList;
  readonly #settings: Settings;
  readonly #prices: readonly PriceColumn[];
  readonly #sized: boolean;
  readonly #widths: readonly number[];
  #row = 0;

  constructor(page: Worksheet, list: PriceList, settings: Settings) {
    this.#page = page;
    this.#list = list;
    this.#settings = settings;
    this.#prices = priceColumns(list, settings);
    this.#sized = hasSizes(list);
    this.#widths = [widestName, ...(this.#sized ? [widestSizes] : []), ...this.#prices.map(() => priceWidth)];
  }

  write(): void {
    this.#widths.forEach((width, at) => {
      this.#page.getColumn(at + 1).width = width;
    });
    const { workshop, channel, families, terms, cautions } = this.#list;
    if (workshop !== '') this.#sentence(workshop, font({ bold: true }));
    this.#sentence(listTitle(this.#list), font({ size: titleSize, bold: true, color: { argb: accent } }), 22);
    this.#sentence([channel, validFrom(this.#list)].filter((each) => each !== '').join(' · '), font());
    this.#row += 1;
    for (const each of listSentences(this.#list, this.#settings))
      this.#sentence(each, font({ color: { argb: soft } }));
    this.#row += 1;
    this.#headings();
    const headingRow = this.#row;
    for (const { family, products } of families) {
      if (family !== '') this.#family(family);
      for (const product of products) this.#product(product);
    }
    if (terms !== '') {
      this.#row += 1;
      this.#sentence(terms, font());
    }
    this.#row += 1;
    for (const { about, says } of cautions)
      this.#sentence(`${about}: ${says}`, font({ color: { argb: soft } }));
    this.#setUp(headingRow);
  }

  /** A line over the whole width of the list. */
  #sentence(text: string, style: Partial<ExcelJS.Font>, height?: number): void {
    const cell = this.#next();
    cell.value = cellText(text);
    cell.style = { font: style, alignment: left };
    this.#across();
    const room = this.#widths.reduce((sum, width) => sum + width, 0) - padding;
    this.#page.getRow(this.#row).height = height ?? rowHeight(linesOf(text, room));
  }

  #headings(): void {
    const words = ['Product', ...(this.#sized ? ['Size'] : [])];
    this.#row += 1;
    [...words, ...this.#prices.map(({ heading }) => `${heading}, ${this.#list.currency}`)].forEach(
      (heading, at) => {
        const cell = this.#cell(at);
        cell.value = heading;
        cell.style = {
          font: font({ bold: true, color: { argb: accent } }),
          fill: ground(quiet),
          alignment: { vertical: 'bottom', horizontal: at < words.length ? 'left' : 'right', wrapText: true },
          border: bottomRule(accent),
        };
      },
    );
    this.#page.getRow(this.#row).height = rowHeight(2);
  }

  #family(family: string): void {
    const cell = this.#next();
    cell.value = cellText(family);
    this.#widths.forEach((_, at) => {
      this.#cell(at).style = {
        font: font({ bold: true, color: { argb: accent } }),
        alignment: { ...left, vertical: 'bottom' },
        border: bottomRule(accent),
      };
    });
    this.#across();
    const room = this.#widths.reduce((sum, width) => sum + width, 0) - padding;
    this.#page.getRow(this.#row).height = 9 + rowHeight(linesOf(family, room, boldFactor));
  }

  /** One line for each price of a product; its name and what is said of it stand beside them all. */
  #product({ name, description, prices }: ListedProduct): void {
    const wanted =
      linesOf(name, widestName - padding, boldFactor) +
      (description === '' ? 0 : linesOf(description, widestName - padding));
    const first = this.#row + 1;
    let lines = 0;
    prices.forEach((price, at) => {
      const own = this.#price(price);
      // What the name needs beyond the lines of its prices goes to the last of them.
      const isLast = at === prices.length - 1;
      const height = isLast ? Math.max(own, wanted - lines) : own;
      lines += height;
      this.#page.getRow(this.#row).height = rowHeight(height) + 3;
    });
    const cell = this.#page.getCell(first, 1);
    cell.value = nameAndDescription(name, description);
    cell.style = { font: font(), alignment: left, border: bottomRule(line) };
    if (prices.length > 1) this.#page.mergeCells(first, 1, this.#row, 1);
  }

  /** The sizes and prices of one line; returns how many lines of text it takes. */
  #price(price: ListedPrice): number {
    this.#row += 1;
    const rule = bottomRule(line);
    let lines = 1;
    if (this.#sized) {
      const text = price.sizes.map((each) => sizeText(each, this.#settings)).join('\n');
      const sizes = this.#cell(1);
      sizes.value = cellText(text);
      sizes.style = { font: font(), alignment: left, numFmt: textFormat, border: rule };
      lines = linesOf(text, widestSizes - padding);
    }
    this.#prices.forEach((column, at) => {
      const cell = this.#cell(at + (this.#sized ? 2 : 1));
      const quietly = column.isAsBefore(price) || column.kind === 'list';
      cell.value = column.price(price);
      cell.style = {
        font: font({ bold: column.kind === 'one', color: { argb: quietly ? soft : ink } }),
        alignment: { vertical: 'top', horizontal: 'right' },
        numFmt: numberFormat('money', this.#settings),
        border: rule,
      };
    });
    return lines;
  }

  /** Prints on A4 or Letter as wide as the page, with the headings on each. */
  #setUp(headingRow: number): void {
    const letters = columnLetters(this.#widths.length - 1);
    const upright = this.#widths.reduce((sum, width) => sum + width, 0) <= 136;
    this.#page.pageSetup = {
      ...this.#page.pageSetup,
      paperSize: paperOf(this.#settings) as PaperSize,
      orientation: upright ? 'portrait' : 'landscape',
      fitToPage: true,
      fitToWidth: 1,
      fitToHeight: 0,
      horizontalCentered: true,
      printArea: `A$1:${letters}$${this.#row}`,
      printTitlesRow: `${headingRow}:${headingRow}`,
      margins: { left: 0.6, right: 0.6, top: 0.6, bottom: 0.7, header: 0.3, footer: 0.35 },
    } as Partial<PageSetup>;
    const style = `&"${fontName},Regular"&8`;
    this.#page.headerFooter = {
      oddFooter: `&L${style}${listTitle(this.#list)} · ${validFrom(this.#list)}&R${style}Page &P of &N`,
    };
  }

  #next(): Cell {
    this.#row += 1;
    return this.#cell(0);
  }

  #cell(at: number): Cell {
    return this.#page.getCell(this.#row, at + 1);
  }

  #across(): void {
    if (this.#widths.length > 1) this.#page.mergeCells(this.#row, 1, this.#row, this.#widths.length);
  }
}

function nameAndDescription(name: string, description: string): ExcelJS.CellValue {
  const bold = { font: font({ bold: true }), text: cellText(name) };
  if (description === '') return { richText: [bold] };
  return { richText: [bold, { font: font({ color: { argb: soft } }), text: `\n${cellText(description)}` }] };
}

function sizeText(each: ListedSize, settings: Settings): string {
  const { size, fits } = sizeWords(each, settings);
  return [size, fits].filter((part) => part !== '').join(', ');
}

/** Lines of a text with its own line breaks, where it wraps at a width; a word wider than that breaks. */
function linesOf(text: string, width: number, factor: number = 1): number {
  return text
    .split(/\r\n|\r|\n/)
    .reduce(
      (lines, each) =>
        lines + Math.max(wrappedLines(each, width, factor), Math.ceil((textWidth(each) * factor) / width), 1),
      0,
    );
}
