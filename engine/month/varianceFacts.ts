import type { Book } from '../book/book.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { StockLedger } from '../stock/stockLedger.ts';
import { stockTables } from '../stock/stockTables.ts';
import { varianceTables } from '../stock/varianceTables.ts';
import type { VarianceFact } from './monthFacts.ts';
import type { MonthPeriod } from './monthPeriod.ts';

/** The book with the tables that its sheets of stock and variances show for a month. */
export function withVariances(book: Book, ledger: StockLedger, month: MonthPeriod): Book {
  const span = { from: month.first, to: month.last };
  return {
    ...book,
    tables: new Map([
      ...book.tables,
      ...stockTables(ledger, book.settings, span),
      ...varianceTables(ledger, book, span),
    ]),
  };
}

/**
 * The variances of a month as the sheets of the book have worked them out. Materials have those of price, use and
 * loss, products those of labour; use by products is the same amounts once more, and stays out.
 *
 * @param plan the calculated book with its sheets of variances, and its values
 */
export function varianceFacts(plan: Plan, values: Values): VarianceFact[] {
  const rowsOf = (sheet: string): number[] =>
    Array.from({ length: plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0 }, (_, row) => row);
  const none = { price: 0, usage: 0, lost: 0, wageRate: 0, efficiency: 0, overhead: 0 };
  const materials = rowsOf('variance_materials').map((row): VarianceFact => {
    const number = (column: string): number => values.number('variance_materials', column, row);
    return {
      ...none,
      of: 'material',
      name: String(values.get('variance_materials', 'material', row)),
      price: number('price_variance'),
      usage: number('usage_variance'),
      lost: number('lost_variance'),
    };
  });
  const products = rowsOf('variance_products').map((row): VarianceFact => {
    const number = (column: string): number => values.number('variance_products', column, row);
    return {
      ...none,
      of: 'product',
      name: String(values.get('variance_products', 'product', row)),
      wageRate: number('rate_variance'),
      efficiency: number('efficiency_variance'),
    };
  });
  const overheads = rowsOf('variance_totals').flatMap((): VarianceFact[] => {
    const spending = values.get('variance_totals', 'overhead_spending', 0);
    const idle = values.number('variance_totals', 'overhead_idle', 0);
    return [
      ...(typeof spending === 'number'
        ? [{ ...none, of: 'overhead', name: 'paid beyond plan', overhead: spending }]
        : []),
      { ...none, of: 'overhead', name: 'planned, and taken up by no piece', overhead: idle },
    ];
  });
  return [...materials, ...products, ...overheads];
}
