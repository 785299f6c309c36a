import { describe, expect, it } from 'vitest';
import { cordFunctions } from '../../engine/cord/index.ts';

describe('the list of cord functions', () => {
  it('names each function once, in capitals', () => {
    const names = cordFunctions.map((rule) => rule.name);
    expect(names).toContain('BAR_CORD');
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[A-Z]+(_[A-Z]+)*$/);
  });

  it('names, measures and explains each argument and result', () => {
    for (const rule of cordFunctions) {
      expect(rule.gives).not.toBe('');
      for (const arg of rule.args) {
        expect(arg.name).toMatch(/^[a-z]+(_[a-z]+)*$/);
        expect(arg.unit).not.toBe('');
        expect(arg.meaning).not.toBe('');
      }
    }
  });

  it('spells plain formulas: no cord function, no array, none longer than a workbook takes', () => {
    for (const rule of cordFunctions) {
      // A keyed reference in a workbook is about this long.
      const text = rule.native(
        rule.args.map(() => 'INDEX(Weaves!$F$5:$F$204,MATCH($C12,Weaves!$A$5:$A$204,0))'),
      );
      expect(text.length).toBeLessThan(8192);
      expect(text).not.toMatch(/_|[{}"']|\d[eE]/);
    }
  });
});
