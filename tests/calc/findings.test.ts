import { describe, expect, it } from 'vitest';
import { priceFiles } from '../support/books.ts';
import { plainBook } from '../support/plainBook.ts';

/** A book of so many products, with a sheet of the maker's own over them. */
function told(products: number, columns: string, more: Readonly<Record<string, string>> = {}) {
  const book = plainBook({
    products: Array.from({ length: products }, (_, at) => ({
      product: `piece ${at + 1}`,
      price: 9,
      cost: 3,
      minutes: 10,
    })),
  });
  const own = `sheet: own\ntitle: Own\nanswers: x\nplace: 900\nrows: { each: products }\nkey: product\ncolumns:\n  - { id: product, heading: Product, kind: key }\n${columns}`;
  const { problems } = priceFiles(new Map([...book, ['sheets/own.yaml', own], ...Object.entries(more)]));
  return problems.filter(({ code }) => code === 'check-failed' || code === 'calculation-failed');
}

const check = (formula: string, says: string, rest = 'mend: Mend it.'): string =>
  `  - { id: ok, heading: All Is Well, role: check, severity: watch, formula: '${formula}', says: '${says}', ${rest} }\n`;

describe('a formula of the maker’s own that cannot be worked out', () => {
  const broken = "  - { id: odd, heading: Odd, kind: number, formula: '1 / (1 - 1)' }\n";

  it.each([
    [1, ''],
    [2, ' 1 more row has the same fault.'],
    [4, ' 3 more rows have the same fault.'],
  ])('is told once of %i rows, with its place in the sheet file', (rows, more) => {
    const [first, ...others] = told(rows, broken);
    expect(others).toEqual([]);
    expect(first?.message).toBe(
      `“Odd” of piece 1 cannot be calculated on the sheet Own: it divides by zero.${more}`,
    );
    expect(first?.where).toMatchObject({ file: 'sheets/own.yaml', column: 'Odd' });
    expect([first?.found, first?.mend]).toEqual([
      '#DIV/0!',
      'Check the formula, and the figures that it uses in that row.',
    ]);
  });

  it('is told where it begins, and not of what reads it', () => {
    const after = "  - { id: next, heading: Next, kind: number, formula: 'odd + 1' }\n";
    expect(told(2, broken + after).map(({ where }) => where.column)).toEqual(['Odd']);
  });
});

describe('a check of the maker’s own', () => {
  it('says figures and names of its row, and leaves words alone that are no columns', () => {
    const columns = `  - { id: twice, heading: Twice, kind: money, formula: 'prices[product, "shop"].asking * 2' }\n  - { id: word, heading: Word, kind: text, formula: '""' }\n`;
    const [found] = told(1, columns + check('twice < 0', '{product} at {twice}, {word}, {nobody}.'));
    expect(found?.message).toBe('piece 1 at 18.00, none, {nobody}.');
    expect([found?.severity, found?.mend, found?.accepted]).toEqual(['watch', 'Mend it.', '']);
  });

  it('without a word of its own says its heading, and what is accepted', () => {
    const bare = `  - { id: ok, heading: All Is Well, role: check, severity: watch, formula: '1 > 2' }\n`;
    const [found] = told(1, bare);
    expect([found?.message, found?.accepted]).toEqual(['All Is Well: look.', 'all is well']);
  });

  it('says how a figure fails that it names', () => {
    const columns = "  - { id: odd, heading: Odd, kind: number, formula: '1 / (1 - 1)' }\n";
    const found = told(1, columns + check('IFERROR(odd, 0) > 1', 'Odd is {odd}.'));
    expect(found.map(({ message }) => message)).toContain('Odd is #DIV/0!.');
  });

  it('is told of some rows, and of the others by their number', () => {
    const rows = (count: number) =>
      told(count, check('1 > 2', '{product} fails.')).map(({ message }) => message);
    const many = rows(60);
    const shown = many.length - 1;
    expect(many.slice(0, shown).every((each) => each.endsWith(' fails.'))).toBe(true);
    expect(many[shown]).toBe(`${60 - shown} more rows fail the same check on the sheet Own (all is well).`);
    expect(rows(shown + 1)[shown]).toBe('One more row fails the same check on the sheet Own (all is well).');
    expect(rows(shown)).toHaveLength(shown);
  });
});
