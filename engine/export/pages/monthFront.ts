import type { FrontPage } from './startText.ts';

/**
 * The first page of a month's workbook.
 *
 * @param month in words, such as "October 2026"
 * @param rule how stock is valued, in words
 */
export function monthFront(month: string, rule: string): FrontPage {
  return {
    subject: `month of ${month}`,
    purpose: [
      ['For the bookkeeper', `What happened in ${month}: sales, purchases, stock, cost of sales and tax.`],
      ['Journal', 'The month in double entry by your account codes. Every amount is read from its sheet.'],
      [
        'What to do',
        'See that the three lines above say “all well”; the sheet Checks says what does not. Compare fees and tax with your papers, and read the cautions below. Then enter the Journal in your accounts, and sign above.',
      ],
      [
        'Follow a figure',
        'Every total, share and balance is a formula: from the Journal to Postings, to the sheet named there, and to its lines.',
      ],
    ],
    placesTitle: 'What is inside',
    places: [
      ['Journal', 'journal', 'debit'],
      ['Accounts', 'accounts', 'balance'],
      ['Sales by channel', 'channels', 'net'],
      ['Sales', 'sales', 'takings'],
      ['Invoices', 'invoices', 'payable'],
      ['Purchases', 'purchases', 'landed'],
      ['Freight and duty', 'charges', 'payable'],
      ['Materials', 'materials', 'closing_value'],
      ['Finished goods', 'products', 'closing_value'],
      ['Taken out', 'taken', 'value'],
      ['Cost of sales', 'margins', 'margin'],
      ['Where amounts come from', 'posted', 'amount'],
      ['Variances', 'variances', 'amount'],
      ['Changes of closed months', 'late', 'change'],
      ['What changed', 'late_lines', 'entry'],
      ['Tax', 'tax', 'balance'],
      ['Checks', 'checks', 'difference'],
    ],
    sources: [
      ['From the book', 'Dates, quantities, takings, invoices and rates stand in the book’s tables.'],
      ['Stock', `Valued by ${rule}, movement by movement; the values found stand as values.`],
      ['Made', 'Materials by the stock method, labour at the wage, overhead at the book’s rate.'],
      [
        'Everything else',
        'Formulas. Amounts are fixed to the smallest coin line by line, half away from zero.',
      ],
    ],
    cautions: [
      [
        'No advice',
        'These are figures for a bookkeeper. They are no tax return, no accounts, and no advice.',
      ],
      [
        'Rules',
        'Tax, consumer and accounting rules are local. A licensed professional decides what is booked, when tax is due, and what stock is worth.',
      ],
      [
        'Value of stock',
        'Stock stands at cost. Where it would bring less than it cost, it has to be written down by your rules (IAS 2, paragraph 9).',
      ],
      [
        'Postage charged',
        'What buyers paid for postage, and its tax, is in here only where the book’s takings hold it. Estimated fees count the fee on it.',
      ],
      [
        'Fees',
        'Where the book does not say what a channel kept, fees are estimated by fees.csv. Compare them with the channel’s own statement.',
      ],
      [
        'Not in here',
        'Payments, wages and overhead paid, the carrier’s postage and depreciation are not posted: they come from your bank and other papers.',
      ],
    ],
  };
}
