import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cordFunctions } from '../../engine/cord/index.ts';

describe('the list of cord functions', () => {
  it('names each function once, in capitals', () => {
    const names = cordFunctions.map((rule) => rule.name);
    expect(names).toContain('BAR_CORD');
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^[A-Z]+(_[A-Z]+)*$/);
  });

  it('has the function of every file, and each of them its test', () => {
    const names = new Set(cordFunctions.map(({ name }) => name));
    const files = readdirSync('engine/cord').filter(
      (file) => file !== 'index.ts' && file !== 'cordFunction.ts',
    );
    expect(files.length).toBe(names.size);
    for (const file of files) {
      const name = /name: '([A-Z_]+)'/.exec(readFileSync(`engine/cord/${file}`, 'utf8'))?.[1] ?? '';
      expect(names.has(name), `engine/cord/index.ts lists ${name} of ${file}`).toBe(true);
      const test = `tests/cord/${file.replace(/\.ts$/, '.test.ts')}`;
      expect(existsSync(test), `${test} tests ${name}`).toBe(true);
    }
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
