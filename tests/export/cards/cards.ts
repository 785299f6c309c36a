import type { Settings } from '../../../engine/book/settings.ts';
import { calculate } from '../../../engine/calc/compiled/calculate.ts';
import { withBatches } from '../../../engine/export/cards/batches.ts';
import type { Card, CardReport } from '../../../engine/export/cards/card.ts';
import { cardPage } from '../../../engine/export/cards/cardPage.ts';
import { type CardChoice, cardReport } from '../../../engine/export/cards/cardReport.ts';
import { type BookText, demoBook, pricedBook } from '../../support/books.ts';
import { setCells } from '../../support/editBook.ts';

export function reportOf(
  book: BookText,
  choice: CardChoice = {},
): { report: CardReport; settings: Settings } {
  const { plan, values } = pricedBook(book);
  return { report: cardReport(plan, values, choice, []), settings: plan.settings };
}

export function pageOf(book: BookText, choice: CardChoice = {}): string {
  const { report, settings } = reportOf(book, choice);
  return cardPage(report, settings, { date: '2026-11-25', version: '0.0.0' });
}

/** One card, with how its book is written. */
export function cardOf(book: BookText, product: string): { card: Card; settings: Settings } {
  const { report, settings } = reportOf(book, { products: [product] });
  const [card] = report.cards;
  if (card === undefined) throw new Error(`no card of ${product}`);
  return { card, settings };
}

/** The card of a product whose batch was asked for. */
export function batchCard(product: string, quantity: number): Card {
  const { plan } = pricedBook(bookWithStrap());
  const batched = withBatches(plan, [{ product, quantity }]);
  const [card] = cardReport(batched, calculate(batched), { products: [product], asked: [product] }, []).cards;
  if (card === undefined) throw new Error(`no card of ${product}`);
  return card;
}

/** The starter book with a product of fixed figures, so that tests do not follow every change of the demo line. */
export function bookWithStrap(cells: Readonly<Record<string, string>> = {}): BookText {
  const strap = {
    name: 'Plain strap',
    family: 'Test straps',
    size: '8 in',
    weave: 'bar',
    over_cord: 'moss cord',
    under_cord: 'coal cord',
    finished_length: '8 in',
    hardware_length: '1 1/4 in',
    hitches: '2',
    bar_diameter: '3 mm',
    slot_width: '5/8 in',
    batch_size: '12',
  };
  return setCells(demoBook('starter'), 'products.csv', { product: 'strap' }, { ...strap, ...cells });
}
