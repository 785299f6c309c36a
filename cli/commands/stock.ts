import type { Command } from 'commander';
import { hasErrors, mendName, type StockReport, stockBook, stockReport } from '../../engine/index.ts';
import { readClosed, readSource } from '../bookFolder.ts';
import { Hindrance, type Io, type Outcome } from '../io.ts';
import { stepsOf } from '../steps.ts';
import { json } from '../terminal/json.ts';
import { showHow } from '../terminal/showHow.ts';
import { showProblems } from '../terminal/showProblems.ts';
import { showStock } from '../terminal/showStock.ts';
import { styleFor } from '../terminal/style.ts';

interface Options {
  readonly on?: string;
  readonly from?: string;
  readonly to?: string;
  readonly method?: string;
  readonly timing?: string;
  readonly period?: string;
  readonly item?: string;
  readonly json?: true;
  readonly plain?: true;
}

/** What is short to type for the words of book.yaml. */
const shortMethods: Readonly<Record<string, string>> = { fifo: 'first in first out' };

export function addStock(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('stock')
    .argument('<book>', 'folder of the book')
    .description('what is on hand and what it is worth, on any day; what came and went')
    .option('--on <date>', 'on hand at the end of this day (default: the last day that something happened)')
    .option('--from <date>', 'what came and went since this day')
    .option('--to <date>', 'until this day')
    .option('--item <name>', 'every movement of one material or product')
    .option('--method <words>', 'average, or first in first out (fifo); default: stock_method of book.yaml')
    .option('--timing <word>', 'perpetual or periodic; default: stock_timing of book.yaml')
    .option('--period <word>', 'month, quarter or year; default: stock_period of book.yaml')
    .option('--json', 'print all figures as JSON')
    .option('--plain', 'no colours')
    .addHelpText(
      'after',
      `
Examples:
  $ sennit stock my-book
  $ sennit stock my-book --on 2026-10-15
  $ sennit stock my-book --from 2026-10-01 --to 2026-10-31
  $ sennit stock my-book --item "rust cord" --method fifo
  $ sennit stock my-book --json

What happened stands in stocktakes.csv (opening balances and counts), purchases.csv with purchase_costs.csv
and day_rates.csv, made.csv, used.csv and sales.csv. Spools and offcuts to cut from are another matter: they
stand in stock.csv. How stock is valued: docs/stock.md. Accounting law differs by place; ask a licensed
professional before you choose or change a method.

Exit code 1 where the book has errors. Stock below nothing is told, and is no error.

In JSON, money is in the book's currency, dates are year-month-day, and lengths are in the book's cord unit.
totals has openingValue, boughtValue, purchasesValue, returnsLoss, labourValue, overheadValue, costOfSales,
wasteValue, givenValue, countedValue (missing when counted), correctedValue, closingValue, closingMaterials,
closingProducts, netSales and grossProfit. Each of items has item, kind, unit, quantity and value (both with opening, bought,
made, used, sold, waste, given, counted, corrected, other and closing: what goes out is negative), unitCost
and standardUnitCost. moves, use, counts and shortages have one entry a row.`,
    )
    .action((folder: string, options: Options) => {
      if (options.on !== undefined && options.to !== undefined)
        throw new Hindrance('--on and --to both say a last day.\n  Give one of them.', 2);
      const until = options.on ?? options.to;
      const source = readSource(io, folder);
      stepsOf(io, source, options)('Pricing the book and valuing its stock');
      const { problems, plan, values, ledger } = stockBook(
        source,
        {
          ...(options.method === undefined
            ? {}
            : { method: shortMethods[options.method.toLowerCase()] ?? options.method }),
          ...(options.timing === undefined ? {} : { timing: options.timing }),
          ...(options.period === undefined ? {} : { period: options.period }),
          ...(options.from === undefined ? {} : { from: options.from }),
          ...(until === undefined ? {} : { to: until }),
        },
        readClosed(io, folder),
      );
      const style = styleFor(io, options.plain);
      if (plan === undefined || values === undefined || ledger === undefined || hasErrors(problems)) {
        outcome.exitCode = problems.some(({ where }) => where.file.startsWith('--')) ? 2 : 1;
        if (options.json) io.out(json({ problems }));
        else io.err(showProblems(problems, style));
        return;
      }
      const report = chosen(stockReport(plan, values, ledger, problems), options.item);
      if (options.json) {
        io.out(json(report));
        return;
      }
      io.out(
        showStock(report, {
          ...showHow(io, style, plan.settings, folder),
          view:
            options.item !== undefined
              ? 'movements'
              : options.from !== undefined || options.to !== undefined
                ? 'roll'
                : 'on hand',
        }),
      );
    });
}

/** The report with one item alone, capitals aside. */
function chosen(report: StockReport, wanted: string | undefined): StockReport {
  if (wanted === undefined) return report;
  const is = ({ item }: { readonly item: string }): boolean => item.toLowerCase() === wanted.toLowerCase();
  if (!report.items.some(is)) {
    const known = report.items.map(({ item }) => item);
    throw new Hindrance(`Nothing called “${wanted}” ever moved.\n  ${mendName(wanted, known)}`, 2);
  }
  return {
    ...report,
    items: report.items.filter(is),
    moves: report.moves.filter(is),
    use: report.use.filter(({ material }) => is({ item: material })),
    counts: report.counts.filter(is),
    shortages: report.shortages.filter(is),
  };
}
