import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { taxSentence } from '../../engine/export/priceList/listWords.ts';
import { listOf } from '../export/priceList/lists.ts';
import { demoBook } from '../support/books.ts';

const page = readFileSync(join(import.meta.dirname, '../../docs/pricelist.md'), 'utf8');

describe('docs/pricelist.md', () => {
  it('says of tax what a list says', () => {
    const { list, settings } = listOf(demoBook('starter'), 'stall');
    const said = [true, false].flatMap((included) =>
      [0.06, 0].map((ratio) =>
        taxSentence({ ...list, tax: { name: 'sales tax', included, ratio } }, settings),
      ),
    );
    const rows = [...page.matchAll(/^\| prices [^|]*\| ([^|]*) \|$/gm)].map(([, says]) => says);
    expect(rows).toEqual(said);
  });
});
