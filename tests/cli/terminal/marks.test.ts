import { describe, expect, it } from 'vitest';
import { runCli } from '../../support/runCli.ts';

const starter = 'templates/books/starter';

/** Commands whose tables have marks behind their figures, in books where each mark shows. */
const asked = [
  ['price', starter],
  ['price', starter, '--costs'],
  ['price', starter, '--channel', 'stall'],
  ['whatif', starter, 'cord +12 %'],
  ['whatif', starter, 'cord +12 %', '--channel', 'stall'],
  ['whatif', starter],
  ['breakeven', starter],
  ['breakeven', starter, '--profit', '90000'],
];

describe('a mark behind a figure', () => {
  it('is explained under each table that has it, and means the same in all of them', async () => {
    const meanings = new Map<string, Set<string>>();
    for (const args of asked) {
      const { out } = await runCli(args, { columns: 80 });
      const used = new Set(
        [...out.matchAll(/\d([*!^>+]+)(?=\s|$)/gm)].flatMap(([, marks = '']) => [...marks]),
      );
      const told = new Map(
        [...out.matchAll(/^([*!^>+]) (\w+ \w+)/gm)].map(([, mark = '', words = '']) => [mark, words]),
      );
      expect([...told.keys()].sort(), args.join(' ')).toEqual([...used].sort());
      for (const [mark, words] of told) meanings.set(mark, new Set([...(meanings.get(mark) ?? []), words]));
    }
    expect(Object.fromEntries([...meanings].map(([mark, words]) => [mark, [...words]]))).toEqual({
      '*': ['set by'],
      '!': ['under its'],
      '^': ['another price'],
      '>': ['takes more'],
      '+': ['and more'],
    });
  });
});
