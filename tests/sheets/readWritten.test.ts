import { describe, expect, it } from 'vitest';
import { calculate } from '../../engine/calc/compiled/calculate.ts';
import { make } from './workshop.ts';

const kinds = `
sheet: kinds
title: Kinds
answers: How each kind is reckoned.
rows: { table: kinds }
key: kind
columns:
  - { id: kind, heading: Kind, kind: key }
  - { id: rule, heading: Rule, kind: formula, uses: [length, weight] }
`;

const own = (formula: string): string => `
sheet: own
title: Own
answers: A sheet of its own.
rows: { each: goods }
key: good
columns:
  - { id: good, heading: Good, kind: key }
  - { id: kind, heading: Kind, kind: text, formula: 'IF(good="fob", "Short", "long")' }
  - { id: length, heading: Length, kind: number, formula: 'goods[good].length' }
  - { id: weight, heading: Weight, kind: number, formula: length + 1 }
  - { id: figure, heading: Figure, kind: number, formula: '${formula}' }
`;

const table = (...rows: string[]): Record<string, string> => ({
  'kinds.csv': ['kind,rule', ...rows, ''].join('\n'),
});

const figures = (rows: string[], formula = 'WRITTEN(kinds[kind].rule)') => {
  const { plan, problems } = make({ kinds, own: own(formula) }, table(...rows));
  expect(problems).toEqual([]);
  const values = calculate(plan);
  return [0, 1].map((row) => values.get('own', 'figure', row));
};

describe('WRITTEN', () => {
  it('works out the formula of the row that it names, over the columns of its own sheet', () => {
    expect(figures(['short,length * 10', 'long,weight * 2'])).toEqual([30, 98]);
  });

  it('is part of a formula like any other', () => {
    expect(figures(['short,length', 'long,"MAX(weight, 5)"'], 'WRITTEN(kinds[kind].rule) + 100')).toEqual([
      103, 149,
    ]);
  });

  it('gives 0 where no formula is written, and a failure where the row is not known', () => {
    expect(figures(['short,'])).toEqual([0, { error: '#NUM!' }]);
  });

  it('keeps the operators of a formula together', () => {
    expect(figures(['short,1 + 2', 'long,1 - 2'], '2 * WRITTEN(kinds[kind].rule)')).toEqual([6, -2]);
  });

  it('tells faults where the formula stands, all of them, and once', () => {
    const { problems } = make(
      { kinds, own: own('WRITTEN(kinds[kind].rule) + WRITTEN(kinds[kind].rule)') },
      table('short,length * height', 'long,SUMM(weight)', 'longer,length *', 'longest,rates.wage'),
    );
    expect(problems.map(({ code, where }) => [code, where.file, where.row, where.column])).toEqual([
      ['column-name-unknown', 'kinds.csv', 2, 'rule'],
      ['function-unknown', 'kinds.csv', 3, 'rule'],
      ['formula-syntax', 'kinds.csv', 4, 'rule'],
      ['sheet-unknown', 'kinds.csv', 5, 'rule'],
    ]);
    expect(problems[0]).toMatchObject({ found: 'length * height', accepted: 'length, weight' });
  });

  it.each(['WRITTEN(kinds[kind].kind)', 'WRITTEN(length)', 'WRITTEN(kinds.rule)', 'WRITTEN()', 'WRITTEN(1)'])(
    'wants a column of formulas and a row: %s',
    (formula) => {
      const { problems } = make({ kinds, own: own(formula) }, table('short,length'));
      expect(problems.map(({ code }) => code)).toEqual(['formula-syntax']);
    },
  );
});
