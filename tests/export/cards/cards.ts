import type { Settings } from '../../../engine/book/settings.ts';
import { calculate } from '../../../engine/calc/compiled/calculate.ts';
import { withBatches } from '../../../engine/export/cards/batches.ts';
import type { Card, CardReport } from '../../../engine/export/cards/card.ts';
import { cardPage } from '../../../engine/export/cards/cardPage.ts';
import { type CardChoice, cardReport } from '../../../engine/export/cards/cardReport.ts';
import { type BookText, demoBook, pricedBook } from '../../support/books.ts';

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

/** The card of a starter product whose batch was asked for. */
export function batchCard(product: string, quantity: number): Card {
  const { plan } = pricedBook(demoBook('starter'));
  const batched = withBatches(plan, [{ product, quantity }]);
  const [card] = cardReport(batched, calculate(batched), { products: [product], asked: [product] }, []).cards;
  if (card === undefined) throw new Error(`no card of ${product}`);
  return card;
}
