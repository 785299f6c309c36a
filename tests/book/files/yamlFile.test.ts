import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseYaml } from '../../../engine/book/files/yamlFile.ts';

/** Twelve lines that say ten times the line before: a million million ones. */
function bomb(): string {
  const rows = Array.from(
    { length: 12 },
    (_, at) => `l${at + 1}: &l${at + 1} [${Array(10).fill(`*l${at}`).join(', ')}]`,
  );
  return `l0: &l0 [1]\n${rows.join('\n')}\n`;
}

describe('parseYaml', () => {
  it('gives scalars as they were written', () => {
    const yaml = parseYaml('book.yaml', 'price: 18.50\ntext: "7, 8"\nblank:\nlist: [1]\nlead: 007\n');
    expect(yaml.text('price')).toBe('18.50');
    expect(yaml.text('text')).toBe('7, 8');
    expect(yaml.text('lead')).toBe('007');
    expect(yaml.text('blank')).toBeUndefined();
    expect(yaml.text('none')).toBeUndefined();
    expect(yaml.isNested('list')).toBe(true);
    expect(yaml.place('list')).toEqual({ file: 'book.yaml', line: 4 });
  });

  it('takes text of nothing for a blank', () => {
    expect(parseYaml('book.yaml', 'price: ""\n').text('price')).toBeUndefined();
  });

  it('tells a syntax error once, in plain words', () => {
    const { problems, data } = parseYaml('book.yaml', 'a: 1\nb 2\nc: 3\nd 4\n');
    expect(problems).toHaveLength(1);
    expect(problems[0]?.where).toEqual({ file: 'book.yaml', line: 2 });
    expect(data).toBeUndefined();
  });

  it('points to where a quotation mark was opened', () => {
    expect(parseYaml('book.yaml', 'a: 1\nb: "two\nc: 3\nd: 4\n').problems[0]?.where.line).toBe(2);
  });

  it('names every setting that stands twice', () => {
    expect(parseYaml('book.yaml', 'a: 1\na: 2\nb: 1\nb: 2\n').problems.map(({ message }) => message)).toEqual(
      ['“a” stands twice.', '“b” stands twice.'],
    );
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom(...'ab: -\n\t"\'[]{}#&*!|>%?,1') }),
        (text) => void parseYaml('book.yaml', text),
      ),
    );
  });

  it.each([
    ['aliases that would expand without bound', bomb(), undefined, 'so often that it grows without bound'],
    ['an alias of nothing', 'a: 1\nb: *none\n', 2, '“*none” calls for a part of the file'],
    ['brackets without end', `a: ${'['.repeat(20_000)}`, 1, 'nested too deeply'],
    ['indents without end', `${'- '.repeat(20_000)}1`, 1, 'nested too deeply'],
    ['another character set', 'a: 1\nb: caf\uFFFD\n', 2, 'is not UTF-8 text'],
  ])('says in words what it refuses: %s', (_, source, line, message) => {
    const { problems, data, keys } = parseYaml('book.yaml', source);
    expect(problems).toHaveLength(1);
    expect(problems[0]?.code).toBe('yaml-syntax');
    expect(problems[0]?.where.line).toBe(line);
    expect(problems[0]?.message).toContain(message);
    expect(problems[0]?.mend).not.toBe('');
    expect(data).toBeUndefined();
    expect(keys).toEqual([]);
  });
});
