import { describe, expect, it } from 'vitest';
import { cordFunction } from '../../engine/cord/cordFunction.ts';

const square = cordFunction({
  name: 'SQUARE',
  args: [{ name: 'side', unit: 'length', meaning: 'side of a square' }],
  gives: 'area',
  compute: (side) => (side >= 0 ? side * side : Number.NaN),
  domain: (side) => [`${side}>=0`],
  formula: (side) => `${side}*${side}`,
});

describe('a cord function', () => {
  it('guards its native text by its domain', () => {
    expect(square.native(['A1'])).toBe('IF(AND(A1>=0),A1*A1,SQRT(-1))');
  });

  it('asks for every part of its domain', () => {
    const oblong = cordFunction({
      name: 'OBLONG',
      args: [
        { name: 'side', unit: 'length', meaning: 'one side' },
        { name: 'other', unit: 'length', meaning: 'the other side' },
      ],
      gives: 'area',
      compute: (side, other) => side * other,
      domain: (side, other) => [`${side}>=0`, `${other}>=0`],
      formula: (side, other) => `${side}*${other}`,
    });
    expect(oblong.native(['A1', 'B1'])).toBe('IF(AND(A1>=0,B1>=0),A1*B1,SQRT(-1))');
  });

  it('has no answer where the result overflows or a number is missing or surplus', () => {
    expect(square.compute(1e200)).toBeNaN();
    expect(square.compute()).toBeNaN();
    expect(square.compute(1, 2)).toBeNaN();
    expect(square.compute(Number.NaN)).toBeNaN();
  });

  it('throws when spelled with another count of arguments', () => {
    expect(() => square.native([])).toThrow(RangeError);
    expect(() => square.native(['A1', 'B1'])).toThrow(RangeError);
  });

  it('cannot be changed', () => {
    expect(Object.isFrozen(square)).toBe(true);
  });
});
