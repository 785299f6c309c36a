import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedFigures, closedText, type MonthFigure, readClosed } from '../../engine/month/closedMonth.ts';
import { sha256 } from '../support/monthSource.ts';

const text = fc
  .stringMatching(/^[^\s|*?~]([^\r\n\t|*?~]{0,20}[^\s|*?~])?$/)
  .filter((each) => each === each.trim());
const figures = fc.array(
  fc.record({
    part: fc.constantFrom('journal', 'materials', 'finished goods'),
    name: fc.oneof(text, fc.constantFrom('=1+1', "'quoted", '-5', '+a', '@b', 'a,b', 'say "so"')),
    figure: fc.constantFrom('debit', 'credit', 'quantity', 'value'),
    value: fc.oneof(
      fc.integer({ min: -99_999, max: 99_999 }).map((coins) => (coins / 100).toFixed(2)),
      text,
    ),
  }),
);

describe('the file of a closed month', () => {
  const file = 'closed/2026-10.csv';
  const closed = (given: readonly MonthFigure[]) => ({
    month: '2026-10',
    closedOn: '2026-11-02',
    currency: 'USD',
    figures: given,
  });

  it('comes back as it was written, whatever stands in it', () => {
    fc.assert(
      fc.property(figures, (given) => {
        const read = readClosed(file, closedText(closed(given), sha256), sha256);
        expect(read.problems).toEqual([]);
        expect(read.closed).toEqual(closed(given));
      }),
    );
  });

  it('holds no cell that a spreadsheet program takes for a formula', () => {
    const name = '=cmd()';
    const written = closedText(
      closed([{ part: 'materials', name, figure: 'value', value: '-1.00' }]),
      sha256,
    );
    expect(written).toContain("materials,'=cmd(),value,-1.00");
  });

  it('is not believed once it was changed, cut off or renamed; line ends do not matter', () => {
    const whole = closedText(
      closed([{ part: 'materials', name: 'a', figure: 'value', value: '1.00' }]),
      sha256,
    );
    expect(readClosed(file, whole.replaceAll('\n', '\r\n'), sha256).problems).toEqual([]);
    const cases = [
      whole.replace('1.00', '2.00'),
      whole.slice(0, -30),
      '',
      whole.replace(/month,,digest.*/, ''),
    ];
    for (const each of cases)
      expect(readClosed(file, each, sha256).problems).toMatchObject([
        { code: 'month-closed', where: { file } },
      ]);
    expect(readClosed('closed/2026-09.csv', whole, sha256).problems).toHaveLength(1);
  });
});

describe('changed figures', () => {
  const line = (name: string, figure: string, value: string, part = 'journal'): MonthFigure => ({
    part,
    name,
    figure,
    value,
  });

  it('are those that differ, came or went, the journal first', () => {
    const before = [
      line('cord', 'value', '5.00', 'materials'),
      line('a', 'debit', '1.00'),
      line('b', 'credit', '2.00'),
    ];
    const now = [
      line('cord', 'value', '6.00', 'materials'),
      line('b', 'credit', '2.00'),
      line('c', 'debit', '3.00'),
    ];
    expect(changedFigures(before, now).map(({ name, closed, now: is }) => [name, closed, is])).toEqual([
      ['a', '1.00', null],
      ['c', null, '3.00'],
      ['cord', '5.00', '6.00'],
    ]);
    expect(changedFigures(before, before)).toEqual([]);
  });

  it('name another account of a line, but not that of a line that is new', () => {
    const before = [line('a', 'debit', '1.00'), line('a', 'account of the debit', '4000')];
    const now = [
      line('a', 'debit', '1.00'),
      line('a', 'account of the debit', '4010'),
      line('n', 'debit', '1.00'),
      line('n', 'account of the debit', '4000'),
    ];
    expect(changedFigures(before, now).map(({ name, figure }) => [name, figure])).toEqual([
      ['a', 'account of the debit'],
      ['n', 'debit'],
    ]);
  });
});
