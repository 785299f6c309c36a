import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  openFormula,
  openFormulas,
  rangeAddress,
  targetAddress,
} from '../../../engine/export/ods/openFormula.ts';
import { PlanIndex } from '../../../engine/sheets/planIndex.ts';
import { Speller, workbookSpelling } from '../../../engine/sheets/spell.ts';
import { formula, formulaPlan } from '../../support/randomFormula.ts';

test.each([
  // After ODF 1.3 part 4, chapter 5 (references 5.8, names 5.11, separators 5.6); from memory.
  ['B4', '[.B4]'],
  ['SUM(A1:B2)', 'SUM([.A1:.B2])'],
  ['$A$1+AB$12', '[.$A$1]+[.AB$12]'],
  ["'Price list'!C3", "[$'Price list'.C3]"],
  ['Rates!$B$3:$B$9', "[$'Rates'.$B$3:.$B$9]"],
  ["'It''s'!A1", "[$'It''s'.A1]"],
  ["'Q1'!A1", "[$'Q1'.A1]"],
  ['IF(A1="a,b;""c""",1.5E+21,-2)', 'IF([.A1]="a,b;""c""";1.5E+21;-2)'],
  ['rates.vat20*what_if.on', 'rates.vat20*what_if.on'],
  ['IF(B3>=0,TRUE(),NA())', 'IF([.B3]>=0;TRUE();NA())'],
  ['_xlfn.IFNA(A1,0)', 'IFNA([.A1];0)'],
  ['_xlfn.MAXIFS($A$1:$A$2,$B$1:$B$2,">0")', 'COM.MICROSOFT.MAXIFS([.$A$1:.$A$2];[.$B$1:.$B$2];">0")'],
  ['-NORMSINV(0.02)', '-LEGACY.NORMSINV(0.02)'],
  ['"[.A1] A1:B2 \'x\'!A1"&"π 線"', '"[.A1] A1:B2 \'x\'!A1"&"π 線"'],
  ['"a\nb\t"', '"a\nb\t"'],
])('%s reads %s', (spelled, open) => {
  expect(openFormula(spelled)).toBe(open);
});

test.each([
  'A1:',
  'Rates!',
  '{1,2}',
  'A1 B2',
  '"open',
  "'open!A1",
  'a',
  '#REF!',
  'SUM(A1;B2)',
  '[.A1]',
  'A0',
])('refuses what the workbook does not spell: %s', (spelled) => {
  expect(() => openFormula(spelled)).toThrow('not understood');
});

test('texts, names and numbers of any formula stay as they are', () => {
  fc.assert(
    fc.property(fc.array(formula, { minLength: 1, maxLength: 20 }), (formulas) => {
      const plan = formulaPlan(formulas);
      const speller = new Speller(new PlanIndex(plan), workbookSpelling);
      const sheet = plan.sheets.find(({ id }) => id === 'probe');
      const column = sheet?.columns[1];
      if (sheet === undefined || column === undefined) throw new Error('no probe');
      formulas.forEach((_, row) => {
        const spelled = speller.formula(sheet, column, row);
        const open = openFormula(spelled);
        const textsOf = (text: string): string[] => text.match(/"(?:[^"]|"")*"/g) ?? [];
        expect(textsOf(open)).toEqual(textsOf(spelled));
        // Outside of texts only brackets, points, semicolons and quotes of sheets differ.
        const bare = (text: string): string =>
          text
            .replaceAll(/"(?:[^"]|"")*"/g, '""')
            .replaceAll(/_xlfn\.|COM\.MICROSOFT\.|LEGACY\./g, '')
            .replaceAll(/\[(?:\$'(\w+)')?\.([$A-Z\d]+)(?::\.([$A-Z\d]+))?\]/g, (_all, page, from, to) =>
              [page === undefined ? '' : `${page}!`, from, to === undefined ? '' : `:${to}`].join(''),
            )
            .replaceAll(';', ',')
            .replaceAll("'", '');
        expect(bare(open)).toBe(bare(spelled));
      });
    }),
    { numRuns: 50 },
  );
});

test('formulas that differ in their rows alone read as each by itself', () => {
  const spell = openFormulas();
  for (const formula of [
    "INDEX('Q1'!$B$3:$B$90,MATCH(A3,'Q1'!$A$3:$A$90,0))",
    "INDEX('Q1'!$B$3:$B$91,MATCH(A4,'Q1'!$A$3:$A$91,0))",
    'IF(A12="A12",ATAN2(A1,B2),1E3)',
    'IF(A7="A7",ATAN2(A10,B20),1E3)',
    // A figure like the one that stands in for rows on the way.
    'A1+100000000',
    'A2+100000000',
    'A1+B2+100000001',
    '_xlfn.IFNA(COUNTIF($A$1:$A$2,"x"),NA())',
    '1+1',
  ])
    expect(spell(formula)).toBe(openFormula(formula));
});

test('random formulas read the same with others of their column before them', () => {
  fc.assert(
    fc.property(fc.array(formula, { minLength: 5, maxLength: 5 }), (formulas) => {
      const plan = formulaPlan(formulas);
      const speller = new Speller(new PlanIndex(plan), workbookSpelling);
      const spell = openFormulas();
      for (const sheet of plan.sheets)
        for (const column of sheet.columns) {
          if (column.formula === undefined && column.rowFormulas === undefined) continue;
          for (let row = 0; row < sheet.rowCount; row += 1) {
            const spelled = speller.formula(sheet, column, row);
            expect(spell(spelled)).toBe(openFormula(spelled));
          }
        }
    }),
    { numRuns: 50 },
  );
});

test('addresses name their sheet at both ends', () => {
  expect(rangeAddress('Price list', 'B3:C20')).toBe("'Price list'.B3:'Price list'.C20");
  expect(rangeAddress("It's", 'A1')).toBe("'It''s'.A1");
  expect(targetAddress("'Price list'!$B$3")).toBe("'Price list'.$B$3");
  expect(targetAddress('Rates!B3')).toBe("'Rates'.B3");
  expect(() => targetAddress('https://example.org')).toThrow('No cell');
});
