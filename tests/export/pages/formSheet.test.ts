import { expect, test } from 'vitest';
import { demoBook } from '../../support/books.ts';
import { writtenPages } from '../../support/writtenPages.ts';

const sheet = `sheet: tag
title: Tag
answers: What the tag says.
rows: { form: none }
columns:
  - id: words
    heading: ${'Heading '.repeat(100)}
    kind: text
    formula: '"${'word '.repeat(300)}"'
  - id: short
    heading: Short
    kind: number
    formula: 1 + 1
`;

test('long words of a form wrap in columns that a screen can hold', async () => {
  const { page } = await writtenPages(new Map([...demoBook('starter'), ['sheets/tag.yaml', sheet]]));
  const tag = page('tag');
  expect([1, 2, 3].every((column) => (tag.getColumn(column).width ?? 0) < 70)).toBe(true);
  expect(tag.getCell('B3').alignment.wrapText).toBe(true);
  expect(tag.getRow(3).height).toBeGreaterThan(200);
  expect(tag.getRow(3).height).toBeLessThanOrEqual(409);
  expect(tag.getRow(4).height).toBeLessThan(20);
});

test('no text of a sheet file is longer in the workbook than a cell can be', async () => {
  const endless = sheet
    .replace('What the tag says.', 'Why? '.repeat(10_000))
    .replace('heading: Short', `heading: Short\n    note: ${'Because. '.repeat(5000)}`);
  const { page } = await writtenPages(new Map([...demoBook('starter'), ['sheets/tag.yaml', endless]]));
  page('tag').eachRow((row) => row.eachCell(({ text }) => expect(text.length).toBeLessThanOrEqual(32_767)));
  expect(page('tag').getCell('A1').text.length).toBeGreaterThan(30_000);
});
