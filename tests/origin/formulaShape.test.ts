import { describe, expect, it } from 'vitest';
import { formulaReader } from '../../engine/origin/formulaShape.ts';

/** Columns are called by their letters here, behind the sheet's name. */
const read = formulaReader((sheet, letters) => `${sheet ?? 'own'}.${letters}`);
const shape = (formula: string): string => read(formula).shape;

describe('the shape of a formula', () => {
  it.each([
    ['usual', '=IF(Costs!$B$3>0,ROUND(C3*1.5,2),"a ""b""")'],
    ['another row', '=IF(Costs!$B$9>0,ROUND(C8*1.5,2),"a ""b""")'],
    ['blanks', ' = IF( Costs!B3 > 0 , ROUND( C3 * 1.5 , 2 ) , "a ""b""" )'],
    ['OpenDocument', 'of:=IF([$Costs.$B$3]>0;ROUND([.C3]*1.50;2);"a ""b""")'],
    ['small letters', '=if(costs!b3>0,round(c3*1.5,2),"a ""b""")'.replace('costs', 'Costs')],
    ['a prefix', '=_xlfn.IF(Costs!B3>0,ROUND(C3*1.5,2),"a ""b""")'],
  ])('is the same as %s writes it', (_, formula) => {
    expect(shape(formula)).toBe(shape('=IF(Costs!B3>0,ROUND(C3*1.5,2),"a ""b""")'));
  });

  it.each([
    '=IF(Costs!B3>=0,ROUND(C3*1.5,2),"a ""b""")',
    '=IF(Costs!C3>0,ROUND(C3*1.5,2),"a ""b""")',
    '=IF(Prices!B3>0,ROUND(C3*1.5,2),"a ""b""")',
    '=IF(Costs!B3>0,ROUNDUP(C3*1.5,2),"a ""b""")',
    '=IF(Costs!B3>0,ROUND(C3*1.6,2),"a ""b""")',
    '=IF(Costs!B3>0,ROUND(C3*1.5,2),"a ""c""")',
  ])('of %s is another', (formula) => {
    expect(shape(formula)).not.toBe(shape('=IF(Costs!B3>0,ROUND(C3*1.5,2),"a ""b""")'));
  });

  it('takes TRUE with its brackets and without for one, and a sign that no formula has for itself', () => {
    expect(shape('=IF(TRUE(),A1,FALSE())')).toBe(shape('=IF(TRUE,A1,FALSE)'));
    expect(shape('=A1?B1')).not.toBe(shape('=A1B1'));
  });

  it('knows a sheet by its name in quotes, of OpenDocument too, whatever stands in it', () => {
    const plain = read("='It''s 5: my.sheet'!$A$3:$B$9");
    const open = read("of:=[$'It''s 5: my.sheet'.$A$3:.$B$9]");
    expect(plain).toEqual(open);
    expect(plain.rows).toEqual([
      { sheet: "It's 5: my.sheet", row: 3 },
      { sheet: "It's 5: my.sheet", row: 9 },
    ]);
  });

  it('takes a range of one row for that row', () => {
    expect(read('=SUM(A4:C4)').rows).toEqual([{ sheet: undefined, row: 4 }]);
  });
});
