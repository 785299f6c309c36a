import { expect, test } from 'vitest';
import { roomOnPage } from '../../../engine/export/pages/pageSetup.ts';
import { widestText } from '../../../engine/export/pages/widths.ts';
import { wordWidth } from '../../../engine/export/pages/wordWidth.ts';
import { switchBook } from '../../../engine/switchBook.ts';
import { demoBook, sourceOf } from '../../support/books.ts';
import { pagesOf } from '../../support/writtenPages.ts';

/** A sheet of so many columns of sentences beside figures of this width together. */
const sheet = (sentences: number, figures: number) => (widest: number) => sentences * widest + figures;

test('words keep their width where the sheet is easy to read on a page', () => {
  expect(wordWidth(sheet(1, 60))).toBe(widestText);
});

test('several columns of sentences wrap as early as it takes', () => {
  const three = sheet(3, 60);
  const width = wordWidth(three);
  expect(width).toBeLessThan(widestText);
  expect(three(width)).toBeLessThan(three(widestText));
  expect(three(width + 4)).toBeGreaterThan(three(width));
  // One step wider would have been too wide.
  expect(wordWidth(sheet(3, 60 + 12))).toBeLessThan(width);
});

test('where one page across is not to be had, words stay as they are', () => {
  expect(wordWidth(sheet(1, roomOnPage))).toBe(widestText);
});

test('the sheet Changes of a book with scenarios goes onto a page that can be read', async () => {
  const { plan, values } = switchBook(sourceOf(demoBook('starter')));
  if (plan === undefined || values === undefined) throw new Error('not calculated');
  const { page } = await pagesOf(plan, values);
  const changes = page('changes');
  const widths = Array.from({ length: changes.columnCount }, (_, at) => changes.getColumn(at + 1).width ?? 9);
  expect(changes.pageSetup.fitToWidth).toBe(1);
  // 136 digits fit across at full size: ten-point type stays above six points.
  expect(136 / widths.reduce((sum, width) => sum + width, 0)).toBeGreaterThan(0.6);
});
