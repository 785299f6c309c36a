import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ParsedFormula } from '../../engine/sheets/expression.ts';
import { parseFormula } from '../../engine/sheets/parseFormula.ts';

/** The tree with every bracket written, to see what binds to what. */
function bracketed(tree: ParsedFormula): string {
  switch (tree.kind) {
    case 'number':
      return String(tree.value);
    case 'text':
      return `"${tree.value}"`;
    case 'truth':
      return String(tree.value);
    case 'negate':
      return `(-${bracketed(tree.of)})`;
    case 'binary':
      return `(${bracketed(tree.left)}${tree.operator}${bracketed(tree.right)})`;
    case 'call':
      return `${tree.name}(${tree.args.map(bracketed).join(',')})`;
    case 'reference': {
      const { sheet, keys, column } = tree.to;
      return `${sheet === undefined ? '' : `${sheet}${keys === undefined ? '' : `[${keys.map(bracketed).join(',')}]`}.`}${column}`;
    }
  }
}

function parsed(source: string): string {
  const result = parseFormula(source);
  return 'tree' in result ? bracketed(result.tree) : `fault at ${result.fault.at}`;
}

function fault(source: string) {
  const result = parseFormula(source);
  if ('tree' in result) throw new Error(`${source} has no fault`);
  return result.fault;
}

// Precedence: OpenDocument 1.3 part 4 (OpenFormula), 5.5: unary minus binds before ^, and all are left to right.
describe('parseFormula', () => {
  it.each([
    ['a+b*c', '(a+(b*c))'],
    ['(a+b)*c', '((a+b)*c)'],
    ['a-b-c', '((a-b)-c)'],
    ['a/b/c', '((a/b)/c)'],
    ['a*b^c', '(a*(b^c))'],
    ['a^b^c', '((a^b)^c)'],
    ['-a^2', '((-a)^2)'],
    ['a*-b', '(a*(-b))'],
    ['--a', '(-(-a))'],
    ['+a', 'a'],
    ['a&b+c', '(a&(b+c))'],
    ['a=b&c', '(a=(b&c))'],
    ['a<>b', '(a<>b)'],
    ['a<=b+1', '(a<=(b+1))'],
    ['a+b=c', '((a+b)=c)'],
  ])('%s means %s', (source, meaning) => {
    expect(parsed(source)).toBe(meaning);
  });

  it.each([
    ['pack_price', 'pack_price'],
    ['rates.wage', 'rates.wage'],
    ['cords[main].price', 'cords[main].price'],
    ['prices[product, each].asking', 'prices[product,each].asking'],
    ['cords[goods[good].main].price', 'cords[goods[good].main].price'],
    ['SUM(cuts.cost, 1)', 'SUM(cuts.cost,1)'],
    ['PI()', 'PI()'],
    ['TRUE', 'true'],
    ['FALSE()', 'false'],
    ['"say ""yes"""', '"say "yes""'],
    ['1.5e3', '1500'],
    ['.5', '0.5'],
    ['IF( a > 0 ,\n  b, c )', 'IF((a>0),b,c)'],
  ])('reads %s', (source, meaning) => {
    expect(parsed(source)).toBe(meaning);
  });

  it.each([
    ['', 0],
    ['a b', 2],
    ['a+', 2],
    ['=a', 0],
    ['(a', 2],
    ['a)', 1],
    ['SUM(a', 5],
    ['SUM a', 0],
    ['a*B7', 2],
    ['sum(a)', 0],
    ['a;b', 1],
    ['a*12%', 4],
    ['a*$A$1', 2],
    ['Sheet1!a', 0],
    ['a*1,2', 3],
    ['"open', 0],
    ['rates.', 6],
    ['cords[main]', 11],
    ['cords[main].', 12],
    ['cords[main', 10],
    ['a ? b', 2],
  ])('finds the fault of %j at %d', (source, at) => {
    expect(fault(source).at).toBe(at);
  });

  it('says what to do about each fault', () => {
    expect(fault('sum(a)').mend).toBe('Functions are UPPERCASE: SUM(…).');
    expect(fault('a*1,2').mend).toBe('Formulas have decimal points in every book: 1.2');
    expect(fault('=a').mend).toBe('Leave out the “=”.');
    expect(fault('a*B7').message).toContain('cell address');
  });

  it('refuses nesting without bound, instead of failing on it', () => {
    expect(fault(`${'('.repeat(5000)}1${')'.repeat(5000)}`).message).toBe(
      'The formula is nested too deeply.',
    );
    expect(fault(`${'-'.repeat(5000)}1`).message).toBe('The formula is nested too deeply.');
  });

  it('gives a tree or a fault for any text, and never throws', () => {
    const piece = fc.constantFrom(
      'a',
      'rates',
      '.',
      '[',
      ']',
      '(',
      ')',
      ',',
      '+',
      '-',
      '*',
      '^',
      '&',
      '=',
      '<',
      '>',
      '"',
      'SUM',
      'IF',
      '1',
      '2.5',
      ' ',
      ';',
      '$',
      '%',
      'É',
      '\n',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(piece).map((pieces) => pieces.join('')),
        ),
        (source) => {
          const result = parseFormula(source);
          if ('fault' in result) {
            expect(result.fault.at).toBeGreaterThanOrEqual(0);
            expect(result.fault.at).toBeLessThanOrEqual(source.length);
            expect(result.fault.mend).not.toBe('');
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it.each([
    ['Labour / unit_cost', 0, 'Names are lowercase: labour.'],
    ['1 + unitCost', 4, 'Names are lowercase: unitcost.'],
    ['rates.Wage', 6, 'Names are lowercase: wage.'],
    ['Sum(cost)', 0, 'Functions are UPPERCASE: SUM(…).'],
    ['LAbour', 0, 'Names are lowercase: labour.'],
    ['1 + 2e999', 4, 'Write a smaller one.'],
  ])('says of %s at %d: %s', (source, at, mend) => {
    expect(fault(source)).toMatchObject({ at, mend });
  });

  it('refuses a chain of operators without bound, at any depth', () => {
    const chain = Array(500).fill('a').join('+');
    expect(parsed(chain)).not.toContain('fault');
    expect(fault(`${chain}+a+a`).message).toBe('The formula has more than 500 operators.');
    expect(fault(Array(3000).fill('a').join('+')).message).toContain('operators');
    expect(fault(Array(20).fill(`(${chain})`).join('*')).message).toContain('operators');
  });
});
