import { describe, expect, it } from 'vitest';
import { blocksOf, words } from './blocks.ts';
import { refreshed, showsOutput } from './shownOutput.ts';

const printed = 'head\n\nfob    1\nwrist  2\ncollar 3\n\nfoot\n';

describe('an output that a page shows', () => {
  it.each([
    ['all of it', printed, true],
    ['a changed figure', printed.replace('2', '9'), false],
    ['a line too few at the end', 'head\n\nfob    1\n', false],
    ['a line too few in the middle', printed.replace('wrist  2\n', ''), false],
    ['cut in the middle', 'head\n...\nwrist  2\n...\nfoot\n', true],
    ['cut at the end', 'head\n\nfob    1\n...\n', true],
    ['cut at the start', '...\nfoot\n', true],
    ['a changed line after a cut', 'head\n...\nwrist  9\n...\nfoot\n', false],
    ['lines after a cut in another order', 'head\n...\nwrist  2\n...\nfob    1\n...\n', false],
    ['a last part that is not the end', 'head\n...\ncollar 3\n', false],
    ['a first part that is not the start', 'fob    1\n...\n', false],
  ])('%s', (_, shown, holds) => {
    expect(showsOutput(shown, printed)).toBe(holds);
  });

  it('is written anew with its cuts where they were', () => {
    expect(refreshed('head\n...\nwrist  9\n...\nfoot\n', printed)).toBe('head\n...\nwrist  2\n...\nfoot\n');
    expect(refreshed('...\nfeet\n', printed)).toBe('...\nfoot\n');
    expect(refreshed('heads\n...\n', printed)).toBe('head\n...\n');
    expect(refreshed('old\n', printed)).toBe(printed);
    expect(() => refreshed('head\n...\nbelt  9\n...\nfoot\n', printed)).toThrow('belt');
  });
});

describe('a page', () => {
  it('is taken apart into blocks with what is said of each above it', () => {
    const page =
      'A\n<!-- run: sennit new b -->\n```sh\nsennit check b\n```\n<!-- not run: slow -->\n```csv b/x.csv\na\n```\n';
    expect(blocksOf(page)).toEqual([
      {
        language: 'sh',
        file: '',
        text: 'sennit check b\n',
        line: 3,
        notRun: undefined,
        exits: 0,
        runFirst: ['sennit new b'],
      },
      { language: 'csv', file: 'b/x.csv', text: 'a\n', line: 7, notRun: 'slow', exits: 0, runFirst: [] },
    ]);
    expect(() => blocksOf('```sh\nx\n')).toThrow('not closed');
  });

  it('has command lines as a shell takes them apart', () => {
    expect(words('sennit cord --length "7 in" --x=\'a b\'  # remark')).toEqual([
      'sennit',
      'cord',
      '--length',
      '7 in',
      "--x='a",
      "b'",
    ]);
    expect(words("sennit cut b 'wrist medium=24' #1")).toEqual([
      'sennit',
      'cut',
      'b',
      'wrist medium=24',
      '#1',
    ]);
  });
});
