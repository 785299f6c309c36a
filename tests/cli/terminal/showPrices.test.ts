import { expect, test } from 'vitest';
import { showChannel, showPrices } from '../../../cli/terminal/showPrices.ts';
import { styleFor } from '../../../cli/terminal/style.ts';
import { type PriceReport, priceReport } from '../../../engine/export/answers/priceReport.ts';
import { demoBook, pricedBook, priceFiles } from '../../support/books.ts';
import { runCli } from '../../support/runCli.ts';

const { plan, values } = pricedBook(demoBook('starter'));
const report = priceReport(plan, values, priceFiles(demoBook('starter')).problems);

const how = {
  width: 80,
  style: styleFor({ out: () => {}, err: () => {}, env: {}, now: () => new Date(), folder: '.' }),
  settings: plan.settings,
  book: 'mine',
  command: 'sennit',
};

/** The starter book's products over and over, each in a family of its own. */
function bigReport(products: number): PriceReport {
  const many = Array.from({ length: products }, (_, at) => {
    const product = report.products[at % report.products.length] ?? report.products[0];
    return product === undefined ? [] : [{ ...product, product: `piece ${at}`, family: `family ${at}` }];
  });
  return { ...report, products: many.flat() };
}

test('figures stay in line where only some of them bear a mark', async () => {
  const { out } = await runCli(['price', 'templates/books/starter', '--channel', 'stall']);
  expect(out).toBe(showChannel(report, 'stall', how));
  const lines = out.split('\n').filter((line) => /\d %/.test(line));
  expect(new Set(lines.map((line) => line.indexOf('%'))).size).toBe(1);
});

test('the time for a big book grows with its size, not with the square of it', () => {
  const big = bigReport(15_000);
  expect(showPrices(big, how).split('\n').length).toBeGreaterThan(30_000);
  expect(showChannel(big, 'stall', how).split('\n').length).toBeGreaterThan(30_000);
}, 15_000);
