import { describe, expect, it } from 'vitest';
import type { Expression } from '../../engine/sheets/expression.ts';
import { fold } from '../../engine/sheets/fold.ts';

const word = (value: string): Expression => ({ kind: 'text', value });
const number = (value: number): Expression => ({ kind: 'number', value });
const same = (column: string): Expression => ({
  kind: 'reference',
  to: { rows: 'same', sheet: 'cuts', column },
});
const is = (left: Expression, right: Expression, operator: '=' | '<>' = '='): Expression => ({
  kind: 'binary',
  operator,
  left,
  right,
});
const call = (name: string, ...args: Expression[]): Expression => ({ kind: 'call', name, args });
const core = new Map([['role', 'core']]);

describe('fold', () => {
  it('takes the branch that the word of the row decides', () => {
    expect(fold(call('IF', is(same('role'), word('core')), number(1), number(2)), core)).toEqual(number(1));
    expect(fold(call('IF', is(same('role'), word('over')), number(1), number(2)), core)).toEqual(number(2));
    expect(fold(call('IF', is(same('role'), word('core'), '<>'), number(1), number(2)), core)).toEqual(
      number(2),
    );
  });

  it('leaves the order of two words to the program that opens the workbook', () => {
    const ordered: Expression = { kind: 'binary', operator: '<', left: word('a'), right: word('b') };
    expect(fold(ordered, core)).toEqual(ordered);
  });

  it('compares without regard to capitals, as spreadsheets do', () => {
    expect(fold(is(same('role'), word('CORE')), core)).toEqual({ kind: 'truth', value: true });
  });

  it('decides AND and OR where one word is enough, and keeps the rest', () => {
    const open = is(same('layers'), number(2));
    const yes = is(same('role'), word('core'));
    const no = is(same('role'), word('over'));
    expect(fold(call('AND', no, open), core)).toEqual({ kind: 'truth', value: false });
    expect(fold(call('OR', yes, open), core)).toEqual({ kind: 'truth', value: true });
    expect(fold(call('AND', yes, open), core)).toEqual(call('AND', open));
    expect(fold(call('AND', yes, yes), core)).toEqual({ kind: 'truth', value: true });
  });

  it('leaves what the maker may change', () => {
    const open = call('IF', is(same('cord'), word('red')), number(1), number(2));
    expect(fold(open, core)).toEqual(open);
  });

  it('folds inside look-up keys and under a minus', () => {
    const looked: Expression = {
      kind: 'negate',
      of: { kind: 'reference', to: { rows: 'keyed', sheet: 'roles', column: 'x', keys: [same('role')] } },
    };
    expect(fold(looked, core)).toEqual({
      kind: 'negate',
      of: { kind: 'reference', to: { rows: 'keyed', sheet: 'roles', column: 'x', keys: [word('core')] } },
    });
  });
});
