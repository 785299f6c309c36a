import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { type Browser, chromium, type Page } from 'playwright-core';
import { findProgram } from './findProgram.ts';

/** A browser as judge of pages: it is never downloaded, only found. */
export function findBrowser(): string | undefined {
  return findProgram('chromium', 'chromium-browser');
}

/** Reads the text out of a PDF again. */
export function findPdfText(): string | undefined {
  return findProgram('pdftotext');
}

/** Starts the browser that was found, with a profile of its own and without anything that asks the network. */
export async function startBrowser(): Promise<Browser> {
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('Chromium is not installed (no chromium on PATH)');
  return chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

/** A page from a file on disk, with what it complained of and what it asked for besides itself. */
export interface OpenedPage {
  readonly page: Page;
  /** Messages of the console, and errors. */
  readonly said: readonly string[];
  /** Addresses beyond the file. */
  readonly asked: readonly string[];
}

export async function openHtml(
  browser: Browser,
  html: string,
  folder: string,
  options: { readonly width: number; readonly dark?: boolean },
): Promise<OpenedPage> {
  const file = join(folder, 'page.html');
  await writeFile(file, html);
  const address = pathToFileURL(file).href;
  const page = await browser.newPage({
    viewport: { width: options.width, height: 900 },
    colorScheme: options.dark ? 'dark' : 'light',
  });
  const said: string[] = [];
  const asked: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(String(error)));
  page.on('dialog', (dialog) => {
    said.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('request', (request) => {
    if (request.url() !== address) asked.push(request.url());
  });
  await page.goto(address);
  return { page, said, asked };
}

/** A fresh folder for pages; gone afterwards. */
export async function withPageFolder<T>(use: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), 'sennit-page-'));
  try {
    return await use(folder);
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 3 });
  }
}

/** The text of each page of a PDF, as whoever selects and copies it would get it. */
export async function pdfPages(pdf: Uint8Array): Promise<readonly string[]> {
  const program = findPdfText();
  if (program === undefined) throw new Error('pdftotext is not installed (poppler-utils)');
  return withPageFolder(async (folder) => {
    const file = join(folder, 'page.pdf');
    await writeFile(file, pdf);
    const { stdout } = await promisify(execFile)(program, ['-layout', file, '-'], { maxBuffer: 50_000_000 });
    return stdout.split('\f').slice(0, -1);
  });
}
