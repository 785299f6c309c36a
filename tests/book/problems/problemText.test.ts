import { describe, expect, it } from 'vitest';
import { problem } from '../../../engine/book/problems/problem.ts';
import { problemsText, problemText } from '../../../engine/book/problems/problemText.ts';

const unknown = problem(
  'reference-unknown',
  { file: 'products.csv', row: 7, column: 'weave' },
  '“barr” is not in weaves.',
  {
    found: 'barr',
    accepted: 'a name from weaves',
    mend: 'Did you mean “bar”?',
  },
);

describe('problemText', () => {
  it('says where and what, what is accepted and how to mend it', () => {
    expect(problemText(unknown)).toBe(
      [
        'products.csv, row 7, column weave: “barr” is not in weaves.',
        '  Accepted: a name from weaves',
        '  Mend: Did you mean “bar”?',
      ].join('\n'),
    );
  });

  it('shows what was found where the message does not', () => {
    expect(problemText({ ...unknown, message: 'No such weave.' })).toContain('\n  Found: barr\n');
  });

  it('marks what is only to be looked at, and leaves out what there is not', () => {
    expect(
      problemText(
        problem('check-failed', { file: 'book.yaml', column: 'tax_percent' }, 'Low.', { severity: 'watch' }),
      ),
    ).toBe('Look: book.yaml, setting tax_percent: Low.');
  });

  it('puts a blank line between problems', () => {
    expect(problemsText([unknown, unknown]).split('\n\n')).toHaveLength(2);
    expect(problemsText([])).toBe('');
  });
});
