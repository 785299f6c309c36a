import { describe, expect, it } from 'vitest';
import type { Expression, Reference } from '../../engine/sheets/expression.ts';
import { make } from './workshop.ts';

const { index } = make();
const to = (rows: Reference['rows'], sheet: string, column: string, ...keys: Expression[]): Expression => ({
  kind: 'reference',
  to: { rows, sheet, column, ...(keys.length === 0 ? {} : { keys }) },
});
const goods = index.sheet('goods').sheet;
const tickets = index.sheet('tickets').sheet;

describe('SheetIndex', () => {
  it('finds rows by key, without regard to capitals', () => {
    expect(index.sheet('cords').row(['BLUE'])).toBe(1);
    expect(index.sheet('tickets').row(['lead', 'stall'])).toBe(2);
    expect(index.sheet('cords').row(['green'])).toBeUndefined();
  });

  it('finds the rows of an owner, which stand together in the order of the owners', () => {
    expect(index.column('extras', 'extra').inputs).toEqual(['ring', 'hook', 'box']);
    expect(index.sheet('extras').owned('fob')).toEqual([0, 0]);
    expect(index.sheet('extras').owned('LEAD')).toEqual([1, 2]);
    expect(index.sheet('extras').owned('none')).toBeUndefined();
  });
});

describe('PlanIndex', () => {
  it('has no sheet and no column that the plan has not', () => {
    expect(() => index.sheet('nowhere')).toThrow('No sheet nowhere');
    expect(() => index.column('goods', 'nothing')).toThrow('No column goods.nothing');
  });
});

describe('PlanIndex.known', () => {
  it('knows keys for good, and inputs for now', () => {
    expect(index.known(to('same', 'goods', 'good'), goods, 1)).toEqual({ value: 'lead', locked: true });
    expect(index.known(to('same', 'goods', 'main'), goods, 1)).toEqual({ value: 'blue', locked: false });
    expect(index.known({ kind: 'text', value: 'red' }, goods, 0)).toEqual({ value: 'red', locked: true });
  });

  it('follows look-ups, and is as sure as the least sure step', () => {
    const ownGood = to('same', 'tickets', 'good');
    expect(index.known(to('keyed', 'goods', 'good', ownGood), tickets, 2)).toEqual({
      value: 'lead',
      locked: true,
    });
    expect(index.known(to('keyed', 'goods', 'main', ownGood), tickets, 2)).toEqual({
      value: 'blue',
      locked: false,
    });
    expect(
      index.known(to('keyed', 'cords', 'cord', to('keyed', 'goods', 'main', ownGood)), tickets, 2),
    ).toEqual({ value: 'blue', locked: false });
  });

  it('follows a computed cell that only leads on, simplified by the words of its row', () => {
    const cuts = index.sheet('cuts').sheet;
    expect(index.known(to('same', 'cuts', 'cord'), cuts, 0)).toEqual({ value: 'red', locked: false });
    expect(index.known(to('same', 'cuts', 'cord'), cuts, 1)).toEqual({ value: 'blue', locked: false });
  });

  it('puts texts together and compares them as spreadsheet programs do, without regard to capitals', () => {
    const text = (value: string): Expression => ({ kind: 'text', value });
    const both: Expression = {
      kind: 'binary',
      operator: '&',
      left: to('same', 'goods', 'main'),
      right: to('same', 'goods', 'other'),
    };
    expect(index.known(both, goods, 0)).toEqual({ value: 'redblue', locked: false });
    expect(index.known(both, goods, 1)).toEqual({ value: 'blue', locked: false });
    const chosen = (left: Expression, right: Expression): Expression => ({
      kind: 'call',
      name: 'IF',
      args: [{ kind: 'binary', operator: '=', left, right }, text('same'), text('other')],
    });
    expect(index.known(chosen(both, text('REDblue')), goods, 0)).toEqual({ value: 'same', locked: false });
    expect(index.known(chosen(to('same', 'goods', 'good'), text('LEAD')), goods, 1)).toEqual({
      value: 'same',
      locked: true,
    });
    expect(index.known(chosen(to('same', 'goods', 'other'), text('')), goods, 1)?.value).toBe('same');
    // Numbers and texts: each program has its own notion of how a number reads.
    expect(index.known(chosen(to('same', 'goods', 'length'), text('3')), goods, 0)).toBeUndefined();
    expect(index.known({ ...both, right: to('same', 'goods', 'length') }, goods, 0)).toBeUndefined();
  });

  it('knows the single cells of a form, figures and truth, and takes nothing for a blank key', () => {
    expect(index.known(to('single', 'rates', 'wage'), goods, 0)).toEqual({ value: 20, locked: false });
    expect(index.known({ kind: 'truth', value: true }, goods, 0)).toEqual({ value: true, locked: true });
    expect(
      index.known(to('keyed', 'cords', 'price', to('same', 'goods', 'other')), goods, 1),
    ).toBeUndefined();
  });

  it('does not guess what must be calculated or is not there', () => {
    const price = to('same', 'goods', 'main_price');
    const text: Expression = { kind: 'text', value: 'a' };
    const choice = (condition: Expression, ...args: Expression[]): Expression => ({
      kind: 'call',
      name: 'IF',
      args: [condition, ...args],
    });
    const alike: Expression = { kind: 'binary', operator: '=', left: text, right: text };
    for (const unknown of [
      { kind: 'negate', of: { kind: 'number', value: 1 } },
      { kind: 'binary', operator: '+', left: text, right: text },
      { kind: 'call', name: 'UPPER', args: [text] },
      to('keyed', 'cords', 'price', price),
      to('same', 'goods', 'extras'),
      choice({ kind: 'truth', value: true }, text, text),
      choice({ ...alike, operator: '<>' }, text, text),
      choice({ ...alike, left: price }, text, text),
      choice(alike, price, text),
      choice({ ...alike, right: { kind: 'text', value: 'b' } }, text),
    ] satisfies Expression[])
      expect(index.known(unknown, goods, 0)).toBeUndefined();
    expect(index.known(to('same', 'goods', 'main_price'), goods, 0)).toBeUndefined();
    expect(index.known(to('all', 'cords', 'price'), goods, 0)).toBeUndefined();
    expect(
      index.known(to('keyed', 'cords', 'price', { kind: 'text', value: 'green' }), goods, 0),
    ).toBeUndefined();
  });
});
