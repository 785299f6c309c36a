import { expect, test } from 'vitest';
import { mergeShipped } from '../../engine/book/mergeShipped.ts';
import { readTable } from '../../engine/book/readTable.ts';
import { imperial } from '../support/settings.ts';
import { fieldOf, tableOf } from './fieldOf.ts';

const schema = tableOf('packs', [fieldOf('pack', { kind: 'key' }), fieldOf('amount', { kind: 'quantity' })]);
const read = (file: string, text: string) => readTable(file, text, schema, imperial);

test('which cells had a unit is known by where their rows stand in the whole', () => {
  const merged = mergeShipped(
    read('templates/packs.csv', 'pack,amount\nbox,3 ft\nreel,9\nhank,2 ft\n'),
    read('packs.csv', 'pack,amount\nmine,7 ft\nHANK,4\nbag,5\n'),
    ['pack'],
  );
  expect(merged.table.columns.get('pack')).toEqual(['box', 'reel', 'HANK', 'mine', 'bag']);
  expect([...(merged.withUnit.get('amount')?.keys() ?? [])]).toEqual([0, 3]);
});
