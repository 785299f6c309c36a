import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Style, styleFor } from '../../../cli/terminal/style.ts';
import { table, textWidth, widest, wrap } from '../../../cli/terminal/table.ts';

const plain: Style = styleFor({ out: () => {}, err: () => {}, env: {}, now: () => new Date(0), folder: '.' });
const columns = [
  { heading: 'Product', align: 'left' },
  { heading: 'Unit cost, USD', align: 'right' },
] as const;

describe('table', () => {
  it('sets figures flush right under headings that break at spaces', () => {
    expect(
      table(
        columns,
        [
          ['fob', '5.42'],
          ['lanyard', '15.47'],
        ],
        80,
        plain,
      ),
    ).toBe(
      ['          Unit', '         cost,', 'Product    USD', 'fob       5.42', 'lanyard  15.47', ''].join(
        '\n',
      ),
    );
  });

  it('puts sub-headings over the rows that follow', () => {
    expect(table(columns, [{ group: 'Key fobs' }, ['fob', '5.42']], 80, plain)).toContain('Key fobs\nfob');
  });

  it('cuts long names with an ellipsis rather than overrun the width', () => {
    const lines = table(columns, [['a name much longer than there is room for', '1.00']], 24, plain).split(
      '\n',
    );
    for (const line of lines) expect(textWidth(line)).toBeLessThanOrEqual(24);
    expect(lines.at(-2)).toContain('…');
    expect(lines.at(-2)).toContain('1.00');
  });

  it('counts what the screen shows: accents are narrow, wide letters take two places', () => {
    expect(textWidth('é')).toBe(1);
    expect(textWidth('e\u0301')).toBe(1);
    expect(textWidth('紐')).toBe(2);
  });

  it('wraps without losing a word', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,9}$/), { minLength: 1 }),
        fc.integer({ min: 10, max: 40 }),
        (words, width) => {
          const lines = wrap(words.join(' '), width);
          expect(lines.join(' ')).toBe(words.join(' '));
          for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
        },
      ),
    );
  });
});

describe('widest', () => {
  it('takes more widths than a call takes arguments', () => {
    expect(widest([...Array(300_000).fill(3), 7])).toBe(7);
    expect(widest([], 2)).toBe(2);
  });
});
