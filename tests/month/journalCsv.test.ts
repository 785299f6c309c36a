import { describe, expect, it } from 'vitest';
import { journalCsv } from '../../engine/month/journalCsv.ts';
import { imperial as settings } from '../support/settings.ts';

const line = {
  entry: 'entry 1',
  day: 46_326,
  code: '0400',
  name: '=HYPERLINK("x")',
  posting: 'sales',
  channel: '',
  text: 'Sales, a;b',
  isLate: false,
  debitCoins: 0,
  creditCoins: 1_234_505,
};

describe('the journal as a table', () => {
  it('is in the notation of the book, with days by ISO 8601', () => {
    expect(journalCsv([line], { ...settings, currency: 'USD' }).split('\n')[1]).toBe(
      `entry 1,2026-10-31,0400,"'=HYPERLINK(""x"")",sales,"Sales, a;b",,12345.05,USD`,
    );
    const comma = { ...settings, currency: 'JPY', currencyDigits: 0, decimal: 'comma' } as const;
    expect(journalCsv([line], comma).split('\n')[1]).toBe(
      `entry 1;2026-10-31;0400;"'=HYPERLINK(""x"")";sales;"Sales, a;b";;1234505;JPY`,
    );
  });
});
