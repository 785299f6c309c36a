import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import * as built from '../../library/index.ts';
import { findBrowser, startBrowser } from '../support/browser.ts';
import { loadedSolver } from '../support/solverForTests.ts';

const site = 'http://sennit.test/';
const types: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  wasm: 'application/wasm',
};

/** The page that docs/library.md shows. */
function shownPage(): string {
  return /^```html\n([\s\S]*?)^```/m.exec(readFileSync('docs/library.md', 'utf8'))?.[1] ?? '';
}

/** What stands at an address: the page, and the folder for pages of the package beside it. */
function served(path: string): Buffer | string | undefined {
  if (path === 'index.html') return shownPage();
  if (path === 'sennit/highs.wasm') return readFileSync('dist/highs.wasm');
  const file = /^sennit\/([\w-]+\.js)$/.exec(path)?.[1];
  return file === undefined ? undefined : readFileSync(join('dist', 'browser', file));
}

describe.skipIf(findBrowser() === undefined)('the library in a page', () => {
  let browser: Browser;
  let page: Page;
  const said: string[] = [];
  const strange: string[] = [];

  beforeAll(async () => {
    browser = await startBrowser();
    page = await browser.newPage();
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(String(error)));
    // No server and no network: every request is answered from here, and a strange one is kept.
    await page.route('**/*', async (route) => {
      const address = route.request().url();
      const path = address.startsWith(site) ? address.slice(site.length) : '';
      const body = served(path);
      if (body === undefined) strange.push(address);
      const type = types[path.split('.').at(-1) ?? ''] ?? 'text/plain';
      await route.fulfill(
        body === undefined ? { status: 404 } : { body, contentType: `${type}; charset=utf-8` },
      );
    });
    await page.goto(`${site}index.html`);
  });
  afterAll(() => browser?.close());

  /** Asks the library in the page, and brings the answer here as JSON; bytes as base64. */
  async function inPage(question: string): Promise<string> {
    return page.evaluate(
      `(async () => {
        const sennit = await import('/sennit/index.js');
        const told = (_, value) => value instanceof Uint8Array ? btoa(Array.from(value, (byte) => String.fromCharCode(byte)).join('')) : value;
        return JSON.stringify(await (${question})(sennit), told);
      })()`,
    );
  }

  /** The same here, from the sources. */
  const told = (answer: unknown): string =>
    JSON.stringify(answer, (_, value: unknown) =>
      value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value,
    );

  it('prices the starter book in the page that docs/library.md shows', async () => {
    await page.waitForSelector('#prices li');
    const { result } = built.priceBook(built.starterBook());
    expect(await page.locator('#prices li').allTextContents()).toEqual(
      result?.products.map(
        ({ product, channels }) =>
          `${product}: ${channels.map(({ channel, asking }) => `${channel} ${asking.toFixed(2)}`).join(', ')}`,
      ),
    );
  });

  it.each(['starter', 'metric'] as const)(
    'gives for the book %s just what Node gives, to the last digit',
    async (name) => {
      const book = built.starterBook(name);
      expect(await inPage(`(s) => s.priceBook(s.starterBook('${name}'))`)).toBe(told(built.priceBook(book)));
      expect(await inPage(`(s) => s.calculateBook(s.starterBook('${name}'))`)).toBe(
        told(built.calculateBook(book)),
      );
      expect(await inPage(`(s) => s.whatIf(s.starterBook('${name}'), {})`)).toBe(
        told(built.whatIf(book, {})),
      );
      expect(await inPage(`(s) => s.checkBook(s.starterBook('${name}'))`)).toBe(told(built.checkBook(book)));
    },
  );

  it('tells the cord of a piece', async () => {
    expect(await inPage(`(s) => s.cordOfPiece({ length: '7 in' })`)).toBe(
      told(built.cordOfPiece({ length: '7 in' })),
    );
  });

  it.each([
    ['starter', 'xlsx'],
    ['metric', 'ods'],
  ] as const)(
    'writes the workbook of the book %s as .%s with the bytes that Node writes',
    async (name, format) => {
      const choice = { date: '2026-11-26', format };
      const answer = await inPage(
        `(s) => s.writeWorkbook(s.starterBook('${name}'), ${JSON.stringify(choice)})`,
      );
      // The built one: a workbook holds the version, which the sources do not know.
      const node = (await import(join(process.cwd(), 'dist', 'index.js'))) as typeof built;
      const here = await node.writeWorkbook(node.starterBook(name), choice);
      expect(here.result?.length).toBeGreaterThan(50_000);
      // Not toBe on the texts: a difference would print a megabyte.
      expect(answer === told(here)).toBe(true);
    },
  );

  it('plans a batch with the solver that it fetches', async () => {
    const make = { 'lead long': 3, 'fob short': 12 };
    const here = await built.planCutting(built.starterBook(), {
      solver: loadedSolver,
      make,
    });
    expect(here.result?.complete).toBe(true);
    expect(
      await inPage(`async (s) => {
        const wasm = new Uint8Array(await (await fetch('/sennit/highs.wasm')).arrayBuffer());
        return s.planCutting(s.starterBook(), { solver: await s.loadSolver(wasm), make: ${JSON.stringify(make)} });
      }`),
    ).toBe(told(here));
  });

  it('asks for nothing but its own files, and has nothing to complain of', () => {
    expect(strange.filter((address) => !address.endsWith('/favicon.ico'))).toEqual([]);
    expect(said.filter((text) => !text.includes('favicon'))).toEqual([]);
  });
});
