import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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
import { pageOf, reportOf } from './cards.ts';

/** CSS Values and Units 4: an inch is 96 px on every page. */
const pxPerInch = 96;
/** ISO 216 A4 (210 x 297 mm) and US Letter (8 1/2 x 11 in), in points of 1/72 in. */
const papers = { A4: [595, 842], Letter: [612, 792] } as const;

const cautions = [
  'Flame and melt',
  'breakaway fitting',
  'children under three',
  'Not for climbing',
  'Knots weaken cord',
];

/** A book whose names try to be markup, to run away with the line and to be longer than the page. */
function hostileBook(): BookText {
  let book: BookText = demoBook('starter');
  const names = [
    '<script>document.title = "taken"</script>',
    '"><img src=x onerror=alert(1)>',
    '&lt;b&gt; & "quotes" \' and <!-- comment',
    'unbroken'.repeat(400),
    'many words '.repeat(300),
    '\u202Ebackwards\u202C and 😀',
    '</style></svg></desc>]]>',
  ];
  // Rows as they stand: of a size run, all its sizes take the name of its row.
  const rows = (book.get('products.csv') ?? '').trim().split('\n').slice(1);
  rows
    .map((row) => row.split(',')[0] ?? '')
    .forEach((product, at) => {
      const name = names[at % names.length] ?? '';
      book = setCells(book, 'products.csv', { product }, { name, family: name.slice(0, 30) });
    });
  book = setCells(
    book,
    'materials.csv',
    { material: 'moss cord' },
    { colour: 'x'.repeat(3000), name: '<svg onload=alert(2)>' },
  );
  return setCells(book, 'work.csv', { for: 'bar', step: 'w'.repeat(2000) }, { minutes_per_piece: '1' });
}

describe.skipIf(findBrowser() === undefined)('bench cards in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser.close());

  it.each([
    ...demoBooks.map((name) => [name, demoBook(name)] as const),
    ['of hostile names', hostileBook()] as const,
  ])('ask for nothing, complain of nothing and fit every screen: the book %s', (_, book) =>
    withPageFolder(async (folder) => {
      const html = pageOf(book);
      for (const width of [360, 700, 1280]) {
        const { page, said, asked } = await openHtml(browser, html, folder, { width, dark: width === 700 });
        expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
        expect(said).toEqual([]);
        expect(asked).toEqual([]);
        expect(await page.evaluate('document.querySelectorAll("script, img, iframe").length')).toBe(0);
        expect(await page.title()).toContain('Bench cards');
        await page.close();
      }
    }),
  );

  it('keep hostile names as the text that they are', () =>
    withPageFolder(async (folder) => {
      const { page } = await openHtml(browser, pageOf(hostileBook()), folder, { width: 1280 });
      const headings = await page.locator('h2').allTextContents();
      expect(headings[0]).toContain('<script>document.title = "taken"</script>');
      expect(headings[1]).toContain('"><img src=x onerror=alert(1)>');
      expect(headings[2]).toContain('&lt;b&gt; & "quotes" \' and <!-- comment');
      await page.close();
    }));

  it('have headings in order, tables with headings, and pictures with a name', () =>
    withPageFolder(async (folder) => {
      const { page } = await openHtml(browser, pageOf(demoBook('starter')), folder, { width: 1280 });
      const levels = (await page.evaluate(
        '[...document.querySelectorAll("h1,h2,h3,h4")].map((each) => Number(each.tagName[1]))',
      )) as number[];
      expect(levels[0]).toBe(1);
      levels.forEach((level, at) => {
        expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1);
      });
      expect(await page.evaluate('document.documentElement.lang')).toBe('en');
      expect(await page.evaluate('document.querySelectorAll("th:not([scope])").length')).toBe(0);
      // Each figure by its role and name, as a screen reader finds it: one of the two sizes is shown.
      expect(await page.getByRole('img', { name: /^Set-up of / }).count()).toBe(32);
      expect(await page.getByRole('columnheader', { name: 'ft and in' }).count()).toBe(32);
      expect(await page.getByRole('rowheader', { name: 'upper over' }).count()).toBeGreaterThan(0);
      await page.close();
    }));

  it('draw at full size what says so', () =>
    withPageFolder(async (folder) => {
      const { page } = await openHtml(
        browser,
        pageOf(demoBook('starter'), { products: ['fob short'] }),
        folder,
        {
          width: 1280,
        },
      );
      const widths = (await page.evaluate(
        '[...document.querySelectorAll("svg.wide .dim")].map((each) => each.getBoundingClientRect().width)',
      )) as number[];
      // Scale bar of an inch, finished length of four, woven length of three; a stroke's breadth more.
      expect(widths.slice(0, 3)).toEqual([1, 4, 3].map((inches) => expect.closeTo(inches * pxPerInch, -0.5)));
      await page.close();
    }));

  it('keep the letters of a figure inside it, and off each other', () =>
    withPageFolder(async (folder) => {
      for (const name of demoBooks) {
        for (const width of [360, 1280]) {
          const { page } = await openHtml(browser, pageOf(demoBook(name)), folder, { width });
          const found = (await page.evaluate(lettersAstray)) as string[];
          expect(found).toEqual([]);
          await page.close();
        }
      }
    }));

  describe.each(Object.entries(papers))('on %s', (format, [widthPt, heightPt]) => {
    it.each(demoBooks)('print one product a page: the book %s', (name) =>
      withPageFolder(async (folder) => {
        const { report } = reportOf(demoBook(name));
        const { page } = await openHtml(browser, pageOf(demoBook(name)), folder, { width: 1280 });
        const pdf = await page.pdf({ format });
        await page.close();
        const sizes = [...pdf.toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
        expect(sizes).toHaveLength(report.cards.length);
        for (const [, wide, high] of sizes) {
          expect(Math.abs(Number(wide) - widthPt)).toBeLessThan(1);
          expect(Math.abs(Number(high) - heightPt)).toBeLessThan(1);
        }
        if (findPdfText() === undefined) return;
        const pages = await pdfPages(pdf);
        expect(pages).toHaveLength(report.cards.length);
        report.cards.forEach((card, at) => {
          const text = pages[at]?.replace(/\s+/g, ' ') ?? '';
          expect(text).toContain(card.size === '' ? card.name : `${card.name}, ${card.size}`);
          for (const caution of cautions) expect(text).toContain(caution);
          for (const cord of card.cords) expect(text).toContain(cord.cord);
          expect(text).toContain(`card ${at + 1} of ${report.cards.length}`);
        });
      }),
    );
  });

  it('print dark letters on white paper where the screen is dark', () =>
    withPageFolder(async (folder) => {
      const { page } = await openHtml(browser, pageOf(demoBook('metric')), folder, {
        width: 1280,
        dark: true,
      });
      const ground = 'getComputedStyle(document.body).backgroundColor';
      expect(await page.evaluate(ground)).toBe('rgb(20, 25, 29)');
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect(await page.evaluate(ground)).toBe('rgb(255, 255, 255)');
      expect(await page.evaluate('getComputedStyle(document.body).color')).toBe('rgb(34, 48, 60)');
      await page.close();
    }));
});

/** Runs in the page: texts of the shown figures that leave their figure or lie on another text. */
const lettersAstray = `(() => {
  const found = [];
  for (const svg of document.querySelectorAll('figure svg')) {
    const frame = svg.getBoundingClientRect();
    if (frame.width === 0) continue;
    const boxes = [...svg.querySelectorAll('text')].map((each) => [each.textContent, each.getBoundingClientRect()]);
    boxes.forEach(([text, box], at) => {
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1)
        found.push(svg.querySelector('title').textContent + ': ' + text + ' leaves the figure');
      for (const [other, its] of boxes.slice(at + 1)) {
        const across = Math.min(box.right, its.right) - Math.max(box.left, its.left);
        const down = Math.min(box.bottom, its.bottom) - Math.max(box.top, its.top);
        if (across > 1 && down > box.height / 3)
          found.push(svg.querySelector('title').textContent + ': ' + text + ' lies on ' + other);
      }
    });
  }
  return found;
})()`;
