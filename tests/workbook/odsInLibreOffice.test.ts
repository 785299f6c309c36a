import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { leadingKeys } from '../../engine/export/pages/tableSheet.ts';
import { workbook } from '../../engine/export/workbook.ts';
import { originTitle } from '../../engine/origin/originCells.ts';
import { definedName } from '../../engine/sheets/spell.ts';
import { demoBook, demoBooks, pricedBook } from '../support/books.ts';
import { findLibreOffice, savedFromWindow } from '../support/libreoffice.ts';
import { planCells } from '../support/planCells.ts';
import { plainText, type WrittenBook, writtenBook } from '../support/xlsxParts.ts';

const about = { date: '2026-03-02', version: '0.0.0' };

async function seen(bytes: Uint8Array): Promise<WrittenBook> {
  const folder = await mkdtemp(join(tmpdir(), 'sennit-ods-seen-'));
  try {
    const file = join(folder, 'book.ods');
    await writeFile(file, bytes);
    return writtenBook(await savedFromWindow(file));
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Attributes of every element of that name, in the order of the file. */
function elements(xml: string, tag: string): { readonly [name: string]: string }[] {
  return [...xml.matchAll(new RegExp(`<${tag}\\b([^>]*)>`, 'g'))].map(([, attributes = '']) =>
    Object.fromEntries(
      [...attributes.matchAll(/([\w:]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [
        name,
        plainText(value),
      ]),
    ),
  );
}

/** Rules of cells as one line each, whichever program wrote them. */
function validityOf(xml: string): string[] {
  return [...xml.matchAll(/<dataValidation\b([^>]*)>([\s\S]*?)<\/dataValidation>/g)].map(
    ([, attributes = '', inside = '']) => {
      const own = elements(`<rule${attributes}>`, 'rule')[0] ?? {};
      const formulas = [...inside.matchAll(/<formula\d>([^<]*)</g)].map(([, text = '']) => plainText(text));
      const bounds = own.type === 'list' || own.type === 'custom' ? '' : (own.operator ?? 'between');
      // Only a rule of two bounds has a second; LibreOffice writes a 0 there for all.
      const said = formulas.slice(0, bounds === 'between' ? 2 : 1);
      // 0.0 and 0, 1E+12 and 1000000000000, a quoted sheet and a bare one are the same.
      const plain = said.map((text) =>
        Number.isNaN(Number(text)) ? text.replaceAll("'", '') : String(Number(text)),
      );
      const blank = own.allowBlank === '1' || own.allowBlank === 'true';
      return [own.sqref, own.type, bounds, blank, own.errorTitle, own.error, ...plain].join(' | ');
    },
  );
}

describe.skipIf(findLibreOffice() === undefined).each(demoBooks)(
  'the .ods file of the book %s in LibreOffice',
  (name) => {
    const { plan, values } = pricedBook(demoBook(name));
    let own: WrittenBook;
    let theirs: WrittenBook;
    beforeAll(async () => {
      own = writtenBook(await workbook(plan, values, about));
      theirs = await seen(await workbook(plan, values, about, 'ods'));
    });
    const xmlOf = (book: WrittenBook, title: string): string => book.sheets.get(title)?.xml ?? '';
    const titles = plan.sheets.map(({ title }) => title);

    test('has the sheets of the .xlsx file, with their tabs', () => {
      expect([...theirs.sheets.keys()]).toEqual([...titles, originTitle]);
      for (const title of titles)
        expect(elements(xmlOf(theirs, title), 'tabColor'), title).toEqual(
          elements(xmlOf(own, title), 'tabColor'),
        );
    });

    test('keeps every rule of an input cell', () => {
      let rules = 0;
      for (const title of titles) {
        const [ours, found] = [validityOf(xmlOf(own, title)), validityOf(xmlOf(theirs, title))];
        // A rule over a column may come back in pieces or in another order.
        expect(found.sort(), title).toEqual(ours.sort());
        rules += found.length;
      }
      expect(rules).toBeGreaterThan(50);
    });

    test('locks what is locked, and nothing else', () => {
      const open = (book: WrittenBook): string[] =>
        [...book.sheets].flatMap(([title, { cells }]) =>
          [...cells].flatMap(([address, { style }]) =>
            book.locked[style] === false ? [`${title}!${address}`] : [],
          ),
        );
      expect(open(theirs).sort()).toEqual(open(own).sort());
      expect(open(own).length).toBeGreaterThan(100);
      for (const title of titles) {
        const [guard] = elements(xmlOf(theirs, title), 'sheetProtection');
        expect(guard?.sheet, title).toBe('true');
        expect(guard?.password ?? guard?.hashValue, title).toBeUndefined();
      }
    });

    test('names every figure of a one-row sheet, where it stands', () => {
      for (const { sheet, column, address } of planCells(plan)) {
        if (sheet.layout !== 'form') continue;
        const absolute = address.replace(/([A-Z]+)(\d+)/, '$$$1$$$2');
        expect(theirs.names.get(definedName(sheet, column))?.replaceAll("'", '')).toBe(
          `${sheet.title}!${absolute}`,
        );
      }
    });

    test('stands in its window with headings frozen and without grid lines', () => {
      for (const sheet of plan.sheets) {
        const xml = xmlOf(theirs, sheet.title);
        expect(elements(xml, 'sheetView')[0]?.showGridLines, sheet.title).toBe('false');
        const [pane] = elements(xml, 'pane');
        if (sheet.id === 'start') expect(pane).toBeUndefined();
        else {
          const keys = sheet.layout === 'form' ? 1 : leadingKeys(sheet);
          const across = keys === 0 ? undefined : String(keys);
          expect(pane, sheet.title).toMatchObject({ ySplit: '2', state: 'frozen' });
          expect(pane?.xSplit, sheet.title).toBe(across);
        }
      }
    });

    test('prints on the same pages, with the same words round them', () => {
      const words = (xml: string, part: string): string =>
        plainText(plainText(new RegExp(`<${part}>([\\s\\S]*?)</${part}>`).exec(xml)?.[1] ?? ''))
          .replaceAll(/&"[^"]*"|&K[0-9a-fA-F]{6}|&10 ?/g, '')
          .replaceAll(/(?:\s|&#10;)+/g, ' ');
      for (const title of titles) {
        const [ours, found] = [xmlOf(own, title), xmlOf(theirs, title)];
        const [setUp] = elements(ours, 'pageSetup');
        expect(elements(found, 'pageSetup')[0], title).toMatchObject({
          paperSize: setUp?.paperSize,
          orientation: setUp?.orientation,
          fitToWidth: setUp?.fitToWidth,
          fitToHeight: setUp?.fitToHeight,
        });
        for (const part of ['oddHeader', 'oddFooter'])
          expect(words(found, part), title).toBe(words(ours, part));
      }
      const printed = (book: WrittenBook): string[] =>
        [...(book.parts.get('xl/workbook.xml') ?? '').matchAll(/<definedName ([^>]*)>([^<]*)</g)]
          .filter(([, attributes = '']) => attributes.includes('_xlnm.Print_'))
          .map(([, attributes = '', range = '']) => {
            const at = Number(/localSheetId="(\d+)"/.exec(attributes)?.[1]);
            return `${titles[at]} ${/Print_\w+/.exec(attributes)?.[0]} ${plainText(range).replaceAll("'", '')}`;
          });
      expect(printed(theirs).sort()).toEqual(printed(own).sort());
      expect(printed(own)).toHaveLength(2 * titles.length);
    });

    test('marks what fails and draws bars, once each', () => {
      const rules = (xml: string): string[] =>
        [
          ...xml.matchAll(
            /<conditionalFormatting[^>]*sqref="([^"]*)"[^>]*>([\s\S]*?)<\/conditionalFormatting>/g,
          ),
        ]
          .flatMap(([, range = '', inside = '']) =>
            [...inside.matchAll(/<cfRule\b([^>]*)>(?:<formula>([^<]*)<)?/g)].map(
              ([, attributes = '', test = '']) =>
                `${range} ${/\btype="(\w+)"/.exec(attributes)?.[1]} ${plainText(test)}`,
            ),
          )
          .sort();
      let count = 0;
      for (const title of titles) {
        expect(rules(xmlOf(theirs, title)), title).toEqual(rules(xmlOf(own, title)));
        count += rules(xmlOf(own, title)).length;
      }
      expect(count).toBeGreaterThan(20);
    });

    test('carries the notes of headings', () => {
      const notes = (book: WrittenBook): string[] =>
        [...book.parts]
          .filter(([part]) => /^xl\/comments\d*\.xml$|^xl\/comments\//.test(part))
          .flatMap(([, xml]) =>
            [...xml.matchAll(/<comment [^>]*ref="([^"]*)"[\s\S]*?<\/comment>/g)].map(
              ([whole, cell = '']) =>
                `${cell} ${[...whole.matchAll(/<t(?:\s[^>]*)?>([^<]*)</g)].map(([, text = '']) => plainText(text)).join('')}`,
            ),
          )
          .sort();
      expect(notes(theirs)).toEqual(notes(own));
      expect(notes(own).length).toBeGreaterThan(50);
    });

    test('leads from the first page to where figures are changed', () => {
      const links = (book: WrittenBook): string[] =>
        elements(xmlOf(book, 'Start'), 'hyperlink').map(
          ({ ref, location }) => `${ref} ${location?.replaceAll("'", '')}`,
        );
      expect(links(theirs)).toEqual(links(own));
      expect(links(own).length).toBeGreaterThan(3);
    });

    test('shows every figure in the number format of the .xlsx file', () => {
      // There is no air of a letter's width in OpenDocument: two spaces stand for it.
      const plain = (format: string | undefined): string | undefined =>
        format
          ?.replaceAll('_w', '  ')
          .replaceAll(/"([^"]*)"/g, '$1')
          .replaceAll(/\\(.)/g, '$1')
          .replace(/^General$/, '');
      const formats = new Set<string>();
      for (const { sheet, column, address } of planCells(plan)) {
        const [ours = '', found] = [own, theirs].map((book) => {
          const cell = book.sheets.get(sheet.title)?.cells.get(address);
          return cell === undefined ? '' : (plain(book.formats[cell.style]) ?? '');
        });
        expect(found, `${sheet.title}!${address} ${column.heading}`).toBe(ours);
        formats.add(ours);
      }
      expect(formats.size).toBeGreaterThan(5);
    });
  },
);
