import { expect, test } from 'vitest';
import { workbook } from '../../../engine/export/workbook.ts';
import { demoBook, pricedBook } from '../../support/books.ts';
import { writtenPages } from '../../support/writtenPages.ts';
import { writtenBook } from '../../support/xlsxParts.ts';

const { cell } = await writtenPages();

test('in-cell bars start at zero; failed checks mark themselves and their figure', async () => {
  const priced = pricedBook(demoBook('starter'));
  const xml =
    writtenBook(await workbook(priced.plan, priced.values, { date: '2026-03-02', version: '1' })).sheets.get(
      'Prices',
    )?.xml ?? '';
  expect(xml.match(/<dataBar>|<dataBar /g)).toHaveLength(2);
  expect(xml).toContain('<cfvo type="num" val="0"/>');
  const asking = cell('prices', 'asking', 0).address;
  const check = cell('prices', 'floor_check', 0).address;
  expect(xml).toMatch(
    new RegExp(`sqref="${asking}:\\w+"><cfRule type="expression"[^>]*><formula>\\$${check}=&quot;look&quot;`),
  );
});
