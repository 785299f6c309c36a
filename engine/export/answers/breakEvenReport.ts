import type { Problem } from '../../book/problems/problem.ts';
import { isFailure, type Values } from '../../calc/values.ts';
import type { Plan } from '../../sheets/plan.ts';

/** So many pieces that what they contribute pays an amount. All null where they contribute nothing. */
export interface BreakEven {
  readonly pieces: number | null;
  /** Net, without tax. */
  readonly takings: number | null;
  readonly benchHours: number | null;
}

interface WholeBreakEven extends BreakEven {
  readonly piecesWhole: number | null;
  /** Whether the month has so many bench hours. */
  readonly withinHours: boolean | null;
}

/** One product in one channel, as if nothing else were sold. */
export interface PairBreakEven {
  readonly product: string;
  readonly channel: string;
  readonly netEach: number;
  readonly contributionEach: number;
  /** Share of the net price; null where that is nothing. */
  readonly contributionRatio: number | null;
  readonly breakEven: WholeBreakEven;
  readonly forWantedProfit: WholeBreakEven;
}

/** The expected sales of `sales_mix.csv` together. */
export interface MixBreakEven {
  readonly pieces: number;
  readonly takings: number;
  readonly contribution: number;
  readonly contributionRatio: number | null;
  readonly profit: number;
  readonly profitTax: number;
  readonly profitAfterTax: number;
  readonly benchHours: number;
  readonly benchHoursLeft: number;
  /** Shares of the expected sales: 0.5 is half of each row. */
  readonly breakEven: BreakEven & { readonly share: number | null };
  readonly forWantedProfit: BreakEven & { readonly share: number | null };
  /** Takings that may be missed before the month loses money. */
  readonly marginOfSafety: number | null;
  readonly marginOfSafetyRatio: number | null;
  readonly rows: readonly {
    readonly product: string;
    readonly channel: string;
    readonly pieces: number;
    readonly takings: number;
    readonly contribution: number;
    readonly benchHours: number;
    readonly breakEvenPieces: number | null;
    readonly wantedPieces: number | null;
  }[];
}

/** What `breakeven --json` prints. Money in the book's currency, unrounded; shares as ratios. */
export interface BreakEvenReport {
  readonly workshop: string;
  readonly currency: string;
  readonly overheadPerMonth: number;
  readonly wantedProfitPerMonth: number;
  readonly profitTaxRatio: number;
  readonly wantedProfitBeforeTax: number;
  readonly benchHoursPerMonth: number;
  /** Null where there is no table sales_mix.csv. */
  readonly mix: MixBreakEven | null;
  readonly pairs: readonly PairBreakEven[];
  readonly problems: readonly Problem[];
}

/** Picks the figures of the sheets Month, Sales mix and Break-even. Computes nothing. */
export function breakEvenReport(plan: Plan, values: Values, problems: readonly Problem[]): BreakEvenReport {
  const rates = (column: string): number => values.number('rates', column, 0);
  const rowsOf = (sheet: string): number => plan.sheets.find(({ id }) => id === sheet)?.rowCount ?? 0;
  return {
    workshop: plan.settings.workshop,
    currency: plan.settings.currency,
    overheadPerMonth: rates('overhead_per_month'),
    wantedProfitPerMonth: rates('wanted_profit_per_month'),
    profitTaxRatio: rates('profit_tax_percent'),
    wantedProfitBeforeTax: rates('wanted_profit_before_tax'),
    benchHoursPerMonth: rates('bench_hours_per_month'),
    mix: rowsOf('month') === 0 ? null : mixBreakEven(values, rowsOf('sales_mix')),
    pairs: Array.from({ length: rowsOf('break_even') }, (_, row) => pairBreakEven(values, row)),
    problems,
  };
}

/** A number, or null where the sheet says “none”. */
function known(values: Values, sheet: string, column: string, row: number): number | null {
  const value = values.get(sheet, column, row);
  return typeof value === 'number' ? value : null;
}

function text(values: Values, sheet: string, column: string, row: number): string {
  const value = values.get(sheet, column, row);
  return value === null || isFailure(value) ? '' : String(value);
}

function pairBreakEven(values: Values, row: number): PairBreakEven {
  const figure = (column: string): number | null => known(values, 'break_even', column, row);
  const alone = (prefix: string): WholeBreakEven => {
    const within = text(values, 'break_even', `${prefix}within_hours`, row);
    return {
      pieces: figure(`${prefix}pieces`),
      piecesWhole: figure(`${prefix}pieces_whole`),
      takings: figure(`${prefix}takings`),
      benchHours: figure(`${prefix}bench_hours`),
      withinHours: within === 'none' ? null : within === 'yes',
    };
  };
  return {
    product: text(values, 'break_even', 'product', row),
    channel: text(values, 'break_even', 'channel', row),
    netEach: values.number('break_even', 'net_each', row),
    contributionEach: values.number('break_even', 'contribution_each', row),
    contributionRatio: figure('contribution_ratio'),
    breakEven: alone(''),
    forWantedProfit: alone('wanted_'),
  };
}

function mixBreakEven(values: Values, rowCount: number): MixBreakEven {
  const sum = (column: string): number => values.number('month', column, 0);
  const figure = (column: string): number | null => known(values, 'month', column, 0);
  const shareOf = (prefix: string): MixBreakEven['breakEven'] => ({
    share: figure(`${prefix}_share`),
    pieces: figure(`${prefix}_pieces`),
    takings: figure(`${prefix}_takings`),
    benchHours: figure(`${prefix}_bench_hours`),
  });
  return {
    pieces: sum('pieces'),
    takings: sum('takings'),
    contribution: sum('contribution'),
    contributionRatio: figure('contribution_ratio'),
    profit: sum('profit'),
    profitTax: sum('profit_tax'),
    profitAfterTax: sum('profit_after_tax'),
    benchHours: sum('bench_hours'),
    benchHoursLeft: sum('bench_hours_left'),
    breakEven: shareOf('break_even'),
    forWantedProfit: shareOf('wanted'),
    marginOfSafety: figure('safety'),
    marginOfSafetyRatio: figure('safety_share'),
    rows: Array.from({ length: rowCount }, (_, row) => ({
      product: text(values, 'sales_mix', 'product', row),
      channel: text(values, 'sales_mix', 'channel', row),
      pieces: values.number('sales_mix', 'pieces_per_month', row),
      takings: values.number('sales_mix', 'takings', row),
      contribution: values.number('sales_mix', 'contribution', row),
      benchHours: values.number('sales_mix', 'bench_hours', row),
      breakEvenPieces: known(values, 'sales_mix', 'break_even_pieces', row),
      wantedPieces: known(values, 'sales_mix', 'wanted_pieces', row),
    })),
  };
}
