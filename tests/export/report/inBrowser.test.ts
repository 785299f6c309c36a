import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BookReport } from '../../../engine/export/report/bookReport.ts';
import type { PageCode } from '../../../engine/export/report/reportPage.ts';
import { type BookText, demoBook, demoBooks } from '../../support/books.ts';
import {
  findBrowser,
  findPdfText,
  type OpenedPage,
  openHtml,
  pdfPages,
  startBrowser,
  withPageFolder,
} from '../../support/browser.ts';
import { hostileBook, hostileNames, oddBooks } from './oddBooks.ts';
import { pageCode, pageOf, reportOf } from './pages.ts';

describe.skipIf(findBrowser() === undefined)('the page in a browser', () => {
  let browser: Browser;
  let code: PageCode;
  const reports = new Map<string, BookReport>();
  /** A book's page, its report made once for all tests. */
  const htmlOf = (name: string, book: () => BookText): string => {
    const report = reports.get(name) ?? reportOf(book());
    reports.set(name, report);
    return pageOf(report, code);
  };
  const opened = <T>(
    html: string,
    options: { readonly width: number; readonly dark?: boolean },
    use: (opened: OpenedPage) => Promise<T>,
  ): Promise<T> =>
    withPageFolder(async (folder) => {
      const page = await openHtml(browser, html, folder, options);
      try {
        return await use(page);
      } finally {
        await page.page.close();
      }
    });

  beforeAll(async () => {
    [browser, code] = await Promise.all([startBrowser(), pageCode()]);
  });
  afterAll(() => browser.close());

  const books: readonly (readonly [string, () => BookText])[] = [
    ...demoBooks.map((name) => [name, () => demoBook(name)] as const),
    ['of hostile names', hostileBook],
    ...oddBooks,
  ];

  it.each(books)(
    'asks for nothing, fits every screen, and tells its pictures: the book %s',
    async (name, book) => {
      const html = htmlOf(name, book);
      for (const width of [360, 1280])
        await opened(html, { width, dark: width === 360 }, async ({ page, said, asked }) => {
          expect(await page.evaluate(lettersAstray)).toEqual([]);
          const wide = 'document.documentElement.scrollWidth';
          expect(await page.evaluate(wide)).toBeLessThanOrEqual(width);
          if (width === 1280) await toldInWords(page);
          // With every table laid open and every slider at its upper end.
          await page.evaluate(
            'document.querySelectorAll("details").forEach((each) => { each.open = true; })',
          );
          await page.evaluate(
            'document.querySelectorAll("input[type=range]").forEach((each) => { each.value = each.max; each.dispatchEvent(new Event("input")); })',
          );
          expect(await page.evaluate(wide)).toBeLessThanOrEqual(width);
          expect(said).toEqual([]);
          expect(asked).toEqual([]);
          expect(await page.evaluate('document.querySelectorAll("img, iframe, link, object").length')).toBe(
            0,
          );
          expect(await page.evaluate('document.querySelectorAll("script").length')).toBeLessThanOrEqual(1);
          expect(await page.title()).toMatch(/^Prices/);
        });
    },
  );

  it('lets nothing run that is not its own, by its policy', async () => {
    const injected = [
      '<script>document.title = "taken";</script>',
      '<svg onload="document.title = \'taken\'"></svg>',
      '<img src="x" onerror="document.title = \'taken\'">',
      '<style>main { display: none; }</style>',
      '<p id="styled" style="display: none">styled</p>',
    ].join('');
    const html = htmlOf('starter', () => demoBook('starter')).replace('<main', `${injected}<main`);
    expect(html).toContain('<script>document.title');
    await opened(html, { width: 1280 }, async ({ page, said, asked }) => {
      expect(await page.title()).toMatch(/^Prices/);
      expect(await page.locator('main').isVisible()).toBe(true);
      expect(await page.locator('#styled').isVisible()).toBe(true);
      // It is the policy that stopped them, and it stopped the picture before it was asked for.
      expect(said.filter((each) => /Content Security Policy/i.test(each)).length).toBeGreaterThanOrEqual(4);
      expect(asked.filter((each) => !each.startsWith('file:'))).toEqual([]);
    });
  });

  it('does not run at all when its script was touched', async () => {
    const html = htmlOf('starter', () => demoBook('starter')).replace(
      'sennitPage.start(',
      'sennitPage.start (',
    );
    await opened(html, { width: 1280 }, async ({ page, said }) => {
      expect(said.some((each) => /Content Security Policy/i.test(each))).toBe(true);
      expect(await page.locator('.controls').isVisible()).toBe(false);
      // The figures as they stand are there all the same.
      expect(await page.locator('#live-table').isVisible()).toBe(true);
    });
  });

  it('keeps hostile names as the text that they are', () =>
    opened(htmlOf('of hostile names', hostileBook), { width: 1280 }, async ({ page }) => {
      const groups = await page.locator('#live-table th.group').allTextContents();
      for (const name of hostileNames) expect(groups).toContain(name);
      expect(await page.locator('h1').textContent()).toContain('</script><script>');
      expect(await page.evaluate('document.querySelectorAll("[onload], [onerror]").length')).toBe(0);
    }));

  it('has letters that stand off their ground, light and dark', async () => {
    for (const dark of [false, true])
      await opened(
        htmlOf('starter', () => demoBook('starter')),
        { width: 1280, dark },
        async ({ page }) => {
          // WCAG 2.2, 1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for marks that carry meaning.
          expect(await page.evaluate(faintText)).toEqual([]);
          expect(await page.evaluate('getComputedStyle(document.body).backgroundColor')).toBe(
            dark ? 'rgb(20, 25, 29)' : 'rgb(255, 255, 255)',
          );
        },
      );
  });

  it('can be used by the keyboard from the top to the table', () =>
    opened(
      htmlOf('metric', () => demoBook('metric')),
      { width: 1280 },
      async ({ page }) => {
        await page.keyboard.press('Tab');
        expect(await focused(page)).toBe('a.skip');
        expect(await page.locator('.skip').isVisible()).toBe(true);
        const seen: string[] = [];
        for (let press = 0; press < 80 && !seen.includes('div.scroll #live'); press += 1) {
          await page.keyboard.press('Tab');
          seen.push(await focused(page));
        }
        const order = ['input#wage-range', 'input#wage-number', 'input#cord-range', 'button#reset'];
        expect(seen.filter((each) => order.includes(each))).toEqual(order);
        expect(seen).toContain('summary');
        expect(seen.at(-1)).toBe('div.scroll #live');
      },
    ));

  it('prints whole pages, dark on white, pictures in one piece, and no sliders', () =>
    opened(
      htmlOf('starter', () => demoBook('starter')),
      { width: 1280, dark: true },
      async ({ page }) => {
        await page.locator('#wage-number').fill('30');
        await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
        expect(await page.evaluate('getComputedStyle(document.body).backgroundColor')).toBe(
          'rgb(255, 255, 255)',
        );
        expect(await page.evaluate('getComputedStyle(document.body).color')).toBe('rgb(34, 48, 60)');
        expect(await page.locator('.controls').isVisible()).toBe(false);
        // No picture is taller than the paper, so each can stand on one page: A4 less its margins, in CSS pixels.
        const tallest = (await page.evaluate(
          'Math.max(...[...document.querySelectorAll("figure")].map((each) => each.getBoundingClientRect().height))',
        )) as number;
        expect(tallest).toBeLessThan(((297 - 2 * 14) / 25.4) * 96);
        const pdf = await page.pdf({ preferCSSPageSize: true });
        const sizes = [...pdf.toString('latin1').matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
        expect(sizes.length).toBeGreaterThan(5);
        // ISO 216 A4 in points of 1/72 in.
        for (const [, wide, high] of sizes) {
          expect(Math.abs(Number(wide) - 595)).toBeLessThan(1.5);
          expect(Math.abs(Number(high) - 842)).toBeLessThan(1.5);
        }
        if (findPdfText() === undefined) return;
        const pages = await pdfPages(pdf);
        expect(pages).toHaveLength(sizes.length);
        // None is left empty.
        for (const text of pages) expect(text.trim().length).toBeGreaterThan(60);
        const all = pages.join('\n').replace(/\s+/g, ' ');
        expect(all).toContain('Tried: wage 30.00 USD per hour.');
        expect(all).not.toContain('Figures to move');
        expect(all).not.toContain('Back to today');
      },
    ));
});

/** Headings in order, and no picture without a name and its figures as a table. */
async function toldInWords(page: Page): Promise<void> {
  const levels = (await page.evaluate(
    '[...document.querySelectorAll("h1,h2,h3,h4")].map((each) => Number(each.tagName[1]))',
  )) as number[];
  expect(levels[0]).toBe(1);
  expect(levels.filter((level) => level === 1)).toHaveLength(1);
  levels.forEach((level, at) => {
    expect(level - (levels[at - 1] ?? 0)).toBeLessThanOrEqual(1);
  });
  expect(await page.evaluate('document.documentElement.lang')).toBe('en');
  expect(await page.evaluate('document.querySelectorAll("th:not([scope])").length')).toBe(0);
  expect(await page.evaluate(unnamed)).toEqual([]);
  expect(await page.evaluate(untold)).toEqual([]);
  const figures = await page.locator('figure').count();
  expect(figures).toBeGreaterThan(0);
  // To a screen reader one of the two sizes of a picture is there.
  expect(await page.locator('figure').getByRole('img').count()).toBe(figures);
  expect(await page.evaluate(deadLinks)).toEqual([]);
}

/** Which element has the focus. */
async function focused(page: Page): Promise<string> {
  return (await page.evaluate(`(() => {
    const each = document.activeElement;
    const name = each.tagName.toLowerCase();
    if (each.querySelector('#live-table') !== null) return name + '.scroll #live';
    return name + (each.id === '' ? '' : '#' + each.id) + (each.className === '' ? '' : '.' + each.className);
  })()`)) as string;
}

/** Runs in the page: pictures that neither have a name nor are told to be none. */
const unnamed = `[...document.querySelectorAll('svg')]
  .filter((each) => each.getAttribute('aria-hidden') !== 'true' && (each.getAttribute('role') !== 'img' || !each.getAttribute('aria-label')))
  .map((each) => each.outerHTML.slice(0, 80))`;

/** Runs in the page: pictures without a heading, or without a table of at least one row with a caption. */
const untold = `[...document.querySelectorAll('figure')]
  .filter((each) => !each.querySelector('h3')?.textContent.trim() || !each.querySelector('details caption')?.textContent || !each.querySelector('details tbody td'))
  .map((each) => each.outerHTML.slice(0, 80))`;

/** Runs in the page: links of the list of contents that lead nowhere. */
const deadLinks = `[...document.querySelectorAll('nav a')].map((each) => each.hash).filter((each) => document.querySelector(each) === null)`;

/** Runs in the page: texts whose contrast with what lies behind them is under 4.5 to 1, as WCAG 2.2 reckons it. */
const faintText = `(() => {
  const part = (channel) => {
    const ratio = channel / 255;
    return ratio <= 0.04045 ? ratio / 12.92 : ((ratio + 0.055) / 1.055) ** 2.4;
  };
  const numbers = (colour) => (colour.match(/[\\d.]+/g) ?? []).map(Number);
  const luminance = ([red, green, blue]) => 0.2126 * part(red) + 0.7152 * part(green) + 0.0722 * part(blue);
  const groundOf = (each) => {
    for (let at = each; at !== null; at = at.parentElement) {
      const ground = numbers(getComputedStyle(at).backgroundColor);
      if (ground.length === 3 || ground[3] === 1) return ground;
    }
    return [255, 255, 255];
  };
  const found = new Set();
  for (const each of document.querySelectorAll('h1, h2, h3, p, a, dt, dd, small, li, th, td, caption, summary, label, legend, button, span, input, text')) {
    if (each.getBoundingClientRect().width === 0 || each.textContent.trim() === '' && each.tagName !== 'INPUT' || each.type === 'range') continue;
    const style = getComputedStyle(each);
    const letters = numbers(each.tagName === 'text' ? style.fill : style.color);
    const [one, other] = [luminance(letters), luminance(groundOf(each))];
    const contrast = (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
    if (contrast < 4.5) found.add(each.tagName + ' ' + each.className + ' ' + contrast.toFixed(2) + ': ' + each.textContent.trim().slice(0, 40));
  }
  return [...found];
})()`;

/** Runs in the page: texts of the shown pictures that leave their picture or lie on another text. */
const lettersAstray = `(() => {
  const found = [];
  for (const svg of document.querySelectorAll('figure svg[role=img]')) {
    const frame = svg.getBoundingClientRect();
    if (frame.width === 0) continue;
    const name = svg.getAttribute('aria-label').slice(0, 40);
    const boxes = [...svg.querySelectorAll('text')]
      .filter((each) => each.textContent.trim() !== '')
      .map((each) => [each.textContent, each.getBoundingClientRect()]);
    boxes.forEach(([text, box], at) => {
      if (box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1)
        found.push(name + ': ' + text + ' leaves the picture');
      for (const [other, its] of boxes.slice(at + 1)) {
        const across = Math.min(box.right, its.right) - Math.max(box.left, its.left);
        const down = Math.min(box.bottom, its.bottom) - Math.max(box.top, its.top);
        if (across > 1 && down > box.height / 3) found.push(name + ': ' + text + ' lies on ' + other);
      }
    });
  }
  return found;
})()`;
