import { describe, expect, it } from 'vitest';
import { engineSpelling, Speller, workbookSpelling } from '../../engine/sheets/spell.ts';
import { make, withFormula } from './workshop.ts';

/** A blank passed on as a number is 0: how that is written is not what these tests are about. */
const bare = (formula: string): string => formula.replace(/\+0$/, '');

function spelled(
  sheet: string,
  column: string,
  row: number,
  more = {},
): { engine: string; workbook: string } {
  const { index, problems } = make(more);
  expect(problems).toEqual([]);
  const at = index.sheet(sheet).sheet;
  const of = index.column(sheet, column);
  return {
    engine: bare(new Speller(index, engineSpelling).formula(at, of, row)),
    workbook: bare(new Speller(index, workbookSpelling).formula(at, of, row)),
  };
}

const own = (formula: string) => spelled('own', 'figure', 0, withFormula(formula)).engine;

describe('Speller', () => {
  it('looks up live where the maker may change the key, and goes straight to the row where not', () => {
    const { engine, workbook } = spelled('goods', 'main_price', 0);
    expect(workbook).toBe('INDEX(Cords!$B$3:$B$4,MATCH(B3,Cords!$A$3:$A$4,0))*D3');
    expect(engine).toBe('cords!$B$3*D3');
    // The key of a ticket is fixed, so that its row of goods is known for good.
    expect(spelled('tickets', 'ticket', 2).workbook).toMatch(/^IF\(ISNUMBER\(C5\),C5,Goods!\$E\$4\*3\)$/);
  });

  it('looks up live through a computed key that leads to an input', () => {
    const { engine, workbook } = spelled('cuts', 'price', 1);
    expect(workbook).toBe('INDEX(Cords!$B$3:$B$4,MATCH(C4,Cords!$A$3:$A$4,0))');
    expect(engine).toMatch(/^cords!\$?B\$?4$/);
  });

  it('adds up the rows of an owner as one range, and nothing where it owns none', () => {
    expect(spelled('goods', 'extras', 0).engine).toBe('SUM(extras!$C$3:$C$3)');
    expect(spelled('goods', 'extras', 1).engine).toBe('SUM(extras!$C$4:$C$5)');
    const { index } = make({}, { 'extras.csv': 'good,extra,cost\nlead,hook,2\n' });
    expect(
      new Speller(index, engineSpelling).formula(
        index.sheet('goods').sheet,
        index.column('goods', 'extras'),
        0,
      ),
    ).toBe('SUM(extras!$B$1:$B$1)');
  });

  it('calls cells of a one-row sheet by name in a workbook', () => {
    expect(spelled('goods', 'hour', 0)).toEqual({ engine: 'rates!$B$3', workbook: 'rates.wage' });
    expect(spelled('rates', 'double', 0).engine).toBe('B3*2');
  });

  it('simplifies by the words of a row', () => {
    expect(spelled('cuts', 'cord', 0).engine).toMatch(/^goods!\$?B\$?3$/);
    expect(spelled('cuts', 'cord', 1).engine).toMatch(/^goods!\$?C\$?3$/);
  });

  it('adds up a column under its last row', () => {
    const { index } = make();
    expect(new Speller(index, engineSpelling).total(index.sheet('extras').sheet, 2)).toBe('SUM(C3:C5)');
  });

  it.each([
    ['(1 + 2) * 3', '(1+2)*3'],
    ['1 + 2 * 3', '1+2*3'],
    ['1 - (2 - 3)', '1-(2-3)'],
    ['1 - 2 - 3', '1-2-3'],
    ['1 / (2 * 3)', '1/(2*3)'],
    ['-(1 + 2)', '-(1+2)'],
    ['(-2) ^ 2', '(-2)^2'],
    ['-2 ^ 2', '(-2)^2'],
    ['2 ^ (3 ^ 2)', '2^(3^2)'],
    ['-(2 ^ 2)', '-(2^2)'],
    ['1 = (2 = 2)', '1=(2=2)'],
    // The engine cannot read a doubled quotation mark.
    ['"a ""b""" & good', '("a "&CHAR(34)&"b"&CHAR(34)&"")&A3'],
    ['IF(TRUE, 1, 2)', 'IF(TRUE(),1,2)'],
  ])('keeps the brackets that %s needs', (formula, text) => {
    expect(own(formula)).toBe(text);
  });

  it('quotes titles that need it, and prefixes functions newer than the file format', () => {
    const titled = {
      titled:
        'sheet: titled\ntitle: My list\nanswers: Own.\nrows: { each: goods }\nkey: good\ncolumns:\n  - { id: good, heading: Good, kind: key }\n  - { id: n, heading: N, kind: number, formula: "1" }\n',
    };
    expect(
      spelled('own', 'figure', 0, { ...titled, ...withFormula('MAXIFS(titled.n, titled.n, 1)') }).workbook,
    ).toBe("_xlfn.MAXIFS('My list'!$B$3:$B$4,'My list'!$B$3:$B$4,1)");
  });

  it('writes cord functions by name for the engine and as plain formulas for a workbook', () => {
    const { engine, workbook } = spelled('own', 'figure', 0, withFormula('BRAID_CORD(38)'));
    expect(engine).toBe('BRAID_CORD(38)');
    expect(workbook).not.toContain('BRAID_CORD');
    expect(workbook).toContain('COS(RADIANS(38))');
  });
});
