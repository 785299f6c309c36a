import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { priceListPage } from '../../../engine/export/priceList/priceListPage.ts';
import { type BookText, demoBook, demoBooks } from '../../support/books.ts';
import {
  findBrowser,
  findPdfText,
  openHtml,
  pdfPages,
  startBrowser,
  withPageFolder,
} from '../../support/browser.ts';
import { setCells } from '../../support/editBook.ts';
import { listsOf, type MadeList, smallBook } from './lists.ts';

/** ISO 216 A4 (210 x 297 mm) and US Letter (8 1/2 x 11 in), in points of 1/72 in. */
const papers = { A4: [595, 842], Letter: [612, 792] } as const;

const pageOf = ({ list, settings }: MadeList): string => priceListPage(list, settings);

/** Words that try to be markup, to run off the page, and to be read backwards. */
const hostile = [
  '<script>document.title = "taken"</script>',
  '"><img src=x onerror=alert(1)>',
  '</style></table><b>',
  'unbroken'.repeat(200),
  '\u202Ebackwards\u202C and 😀 & <!-- comment',
];

function hostileBook(): BookText {
  let book = smallBook();
  ['band', 'tag a', 'tag b', 'odd'].forEach((product, at) => {
    const name = hostile[at] ?? '';
    book = setCells(book, 'products.csv', { product }, { name, description: name, family: name });
  });
  const [, , , long = '', last = ''] = hostile;
  book = setCells(book, 'products.csv', { product: 'odd' }, { size: long });
  return setCells(
    book,
    'channels.csv',
    { channel: 'trade' },
    { name: last, list_note: long, tax_name: '<i>tax</i>' },
  );
}

const lists: readonly (readonly [string, MadeList])[] = [
  ...demoBooks.flatMap((name) =>
    [...listsOf(demoBook(name))].map(([channel, made]) => [`${name}, ${channel}`, made] as const),
  ),
  ...[...listsOf(hostileBook())].map(([channel, made]) => [`hostile, ${channel}`, made] as const),
];

describe.skipIf(findBrowser() === undefined)('price lists in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser.close());

  it.each(lists)('ask for nothing, run nothing, complain of nothing and fit every screen: %s', (_, made) =>
    withPageFolder(async (folder) => {
      for (const width of [360, 700, 1280]) {
        const { page, said, asked } = await openHtml(browser, pageOf(made), folder, {
          width,
          dark: width === 700,
        });
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
        expect(said).toEqual([]);
        expect(asked).toEqual([]);
        expect(
          await page.evaluate('document.querySelectorAll("script, img, iframe, link, form, a").length'),
        ).toBe(0);
        expect(await page.title()).toMatch(
          /^(Price list|Line sheet): Sluice|^(Price list|Line sheet): The Net/,
        );
        await page.close();
      }
    }),
  );

  it('show hostile words as the text that they are', () =>
    withPageFolder(async (folder) => {
      const made = listsOf(hostileBook()).get('trade');
      if (made === undefined) throw new Error('no list');
      const { page } = await openHtml(browser, pageOf(made), folder, { width: 1280 });
      const names = await page.locator('tbody th b').allTextContents();
      expect(names.slice(0, 3)).toEqual(hostile.slice(0, 3));
      expect(await page.locator('.terms').textContent()).toContain('Prices are without <i>tax</i>');
      await page.close();
    }));

  it('are one table, its prices under headings and its sizes beside names, for who does not see it', () =>
    withPageFolder(async (folder) => {
      const made = listsOf(demoBook('starter')).get('wholesale');
      if (made === undefined) throw new Error('no list');
      const { page } = await openHtml(browser, pageOf(made), folder, { width: 1280 });
      expect(await page.evaluate('document.querySelectorAll("th:not([scope])").length')).toBe(0);
      expect(await page.evaluate('document.documentElement.lang')).toBe('en');
      expect(await page.getByRole('columnheader').allTextContents()).toEqual([
        'Product',
        'Size',
        'List price',
        'Trade price',
        'From 12',
        'From 24',
        'From 48',
      ]);
      const cells = await page
        .getByRole('row', { name: 'large 7 3/4 in' })
        .getByRole('cell')
        .allTextContents();
      const large = made.list.families[2]?.products[0]?.prices[2];
      expect(cells.slice(1)).toEqual(
        [large?.listPrice ?? 0, large?.price ?? 0, ...(large?.breakPrices ?? [])].map((each) =>
          each.toFixed(2),
        ),
      );
      await page.close();
    }));

  it('say beside each price what it is on a telephone, where there is no heading', () =>
    withPageFolder(async (folder) => {
      const made = listsOf(demoBook('starter')).get('wholesale');
      if (made === undefined) throw new Error('no list');
      const { page } = await openHtml(browser, pageOf(made), folder, { width: 360 });
      const before = await page.evaluate(
        '[...document.querySelectorAll("tbody td[data-of]")].slice(0, 3).map((each) => getComputedStyle(each, "::before").content)',
      );
      expect(before).toEqual(['"List price: "', '"Trade price: "', '"From 12: "']);
      await page.close();
    }));

  describe.each(Object.entries(papers))('on %s', (format, [widthPt, heightPt]) => {
    it.each(lists)('print whole, with the headings on every page: %s', (_, made) =>
      withPageFolder(async (folder) => {
        const { page } = await openHtml(browser, pageOf(made), folder, { width: 1280, dark: true });
        const pdf = await page.pdf({ format });
        await page.close();
        for (const [, wide, high] of pdf
          .toString('latin1')
          .matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)) {
          expect(Math.abs(Number(wide) - widthPt)).toBeLessThan(1);
          expect(Math.abs(Number(high) - heightPt)).toBeLessThan(1);
        }
        if (findPdfText() === undefined) return;
        const pages = (await pdfPages(pdf)).map((text) => text.replace(/\s+/g, ' '));
        const whole = pages.join(' ');
        for (const { products } of made.list.families)
          for (const { prices } of products)
            for (const { price, breakPrices } of prices)
              for (const each of [price, ...breakPrices])
                expect(whole).toContain(
                  each.toFixed(2).replace('.', made.settings.decimal === 'comma' ? ',' : '.'),
                );
        for (const { says } of made.list.cautions) expect(whole).toContain(says);
        expect(whole).toContain('Valid from 1 December 2026');
        const filled = pages.filter((text) => /\d[.,]\d\d/.test(text));
        for (const text of filled.slice(1)) expect(text).toMatch(/^ ?Product/);
      }),
    );
  });

  it('print dark letters on white paper where the screen is dark', () =>
    withPageFolder(async (folder) => {
      const [first] = lists;
      if (first === undefined) throw new Error('no list');
      const { page } = await openHtml(browser, pageOf(first[1]), folder, { width: 1280, dark: true });
      const ground = 'getComputedStyle(document.body).backgroundColor';
      expect(await page.evaluate(ground)).toBe('rgb(20, 25, 29)');
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect(await page.evaluate(ground)).toBe('rgb(255, 255, 255)');
      expect(await page.evaluate('getComputedStyle(document.body).color')).toBe('rgb(34, 48, 60)');
      await page.close();
    }));
});
