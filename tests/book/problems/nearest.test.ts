import { describe, expect, it } from 'vitest';
import { mendName, nearest } from '../../../engine/book/problems/nearest.ts';

describe('nearest', () => {
  it.each([
    ['barr', 'bar'],
    ['lenght', 'length'],
    ['Slat Cord', 'slate cord'],
    ['wanted_margn_percent', 'wanted_margin_percent'],
  ])('finds the name that %s was meant for', (typed, meant) => {
    expect(nearest(typed, ['bar', 'length', 'slate cord', 'rust cord', 'wanted_margin_percent'])).toBe(meant);
  });

  it.each(['moss cord', 'lead hook', 'xyz', ''])('does not take %s for another name', (typed) => {
    expect(nearest(typed, ['rust cord', 'lead box', 'bar'])).toBeUndefined();
  });
});

it('looks for no slip in what is longer than any name', () => {
  const long = 'x'.repeat(201);
  expect(nearest(long, [`${long}y`])).toBeUndefined();
  expect(nearest(long.slice(1), [long])).toBe(long);
});

describe('mendName', () => {
  it('lists what there is where nothing is near', () => {
    expect(mendName('xyz', ['one', 'two'])).toBe('Known: one, two.');
    expect(mendName('xyz', 'abcdefgh'.split(''))).toBe('Known: a, b, c, d, e, f, g, h.');
    expect(mendName('xyz', [])).toBe('There is none yet.');
    expect(mendName('xyz', 'abcdefghij'.split(''))).toBe('Known: a, b, c, d, e, f, g, h, and 2 more.');
  });

  it('names what holds a part that was typed, before any list', () => {
    const known = ['bead lock', 'olive-wallet-cord', 'slate cord', 'slate fine'];
    expect(mendName('wallet', known)).toBe('Did you mean “olive-wallet-cord”?');
    expect(mendName('cord slate', known)).toBe('Did you mean “slate cord”?');
    expect(mendName('SLATE', known)).toBe('Did you mean one of these: slate cord, slate fine?');
    // Two letters stand in too many names to mean one.
    expect(mendName('co', known)).toMatch(/^Known: /);
    expect(mendName('', known)).toMatch(/^Known: /);
  });

  it('takes a slip of the hand before a part', () => {
    expect(mendName('bar', ['barr', 'bar of two'])).toBe('Did you mean “barr”?');
  });
});
