import { describe, expect, it } from 'vitest';
import { referencesIn } from '../../engine/sheets/expression.ts';
import { make, withFormula } from './workshop.ts';

function reference(formula: string) {
  const { index, problems } = make(withFormula(formula));
  expect(problems).toEqual([]);
  const tree = index.column('own', 'figure').formula;
  return tree === undefined ? undefined : [...referencesIn(tree)][0];
}

const codes = (formula: string) => make(withFormula(formula)).problems.map(({ code }) => code);

describe('resolveFormula', () => {
  it('tells the five ways to refer to a cell apart', () => {
    expect(reference('good & ""')).toMatchObject({ rows: 'same', sheet: 'own', column: 'good' });
    expect(reference('rates.wage')).toMatchObject({ rows: 'single', sheet: 'rates', column: 'wage' });
    expect(reference('goods[good].length')).toMatchObject({
      rows: 'keyed',
      sheet: 'goods',
      column: 'length',
    });
    expect(reference('SUM(extras.cost)')).toMatchObject({
      rows: 'children',
      sheet: 'extras',
      column: 'cost',
    });
    expect(reference('SUM(cords.price)')).toMatchObject({ rows: 'all', sheet: 'cords', column: 'price' });
  });

  it('lets rows that have an owner see what else it owns, and all of their own sheet', () => {
    const extended = (formula: string) => {
      const more = `extends: cuts\ncolumns:\n  - { id: figure, heading: Figure, kind: money, formula: "${formula}" }\n`;
      const { index, problems } = make({ more });
      expect(problems).toEqual([]);
      const tree = index.column('cuts', 'figure').formula;
      return tree === undefined ? undefined : [...referencesIn(tree)][0];
    };
    expect(extended('SUM(extras.cost)')).toMatchObject({ rows: 'children', sheet: 'extras' });
    expect(extended('SUM(cuts.price)')).toMatchObject({ rows: 'all', sheet: 'cuts' });
    expect(extended('SUM(cords.price)')).toMatchObject({ rows: 'all', sheet: 'cords' });
  });

  it.each([
    ['SUMM(1)', 'function-unknown'],
    ['ROUND(1)', 'formula-syntax'],
    ['IF(1, 2, 3, 4)', 'formula-syntax'],
    ['lenght', 'column-name-unknown'],
    ['goods[good].lenght', 'column-name-unknown'],
    ['good_s[good].length', 'sheet-unknown'],
    ['cords.price', 'needs-aggregate'],
    ['SUM(cords.price + 1)', 'needs-aggregate'],
    ['tickets[good].ticket', 'needs-key'],
    ['rates[good].wage', 'needs-key'],
    ['each', 'column-name-unknown'],
    ['1 +', 'formula-syntax'],
  ])('reports %s', (formula, code) => {
    expect(codes(formula)).toEqual([code]);
  });

  it('reports every fault of a formula together', () => {
    expect(codes('SUMM(lenght) + goot.price').sort()).toEqual([
      'column-name-unknown',
      'function-unknown',
      'sheet-unknown',
    ]);
  });

  it('shows a long formula around the fault only', () => {
    const [problem] = make(withFormula(`${'1 + '.repeat(60)}lenght${' + 1'.repeat(60)}`)).problems;
    expect(problem?.found).toContain('lenght');
    expect(problem?.found.length).toBeLessThan(100);
  });

  it('puts the key in the place of each, in a column that is repeated', () => {
    const { index } = make();
    const tree = index.column('list', 'ticket_2').formula;
    expect(tree).toEqual({
      kind: 'reference',
      to: {
        rows: 'keyed',
        sheet: 'tickets',
        column: 'ticket',
        keys: [
          { kind: 'reference', to: { rows: 'same', sheet: 'list', column: 'good' } },
          { kind: 'text', value: 'online' },
        ],
      },
    });
  });
});
