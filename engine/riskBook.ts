import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import type { Source } from './priceBook.ts';
import { sampledInputs } from './sampledInputs.ts';
import { asked, type PriceRule, resultsNamed, type Swept, type SweptBook, sweptBook } from './sweptBook.ts';
import { readRanges } from './whatif/sweeps/ranges.ts';
import { type DrawnRisk, type Goal, riskOf } from './whatif/sweeps/risk.ts';
import type { UncertainInput } from './whatif/sweeps/uncertain.ts';
import { isFault } from './whatif/words/findInputs.ts';
import type { FoundResult } from './whatif/words/findResults.ts';
import { readFigure } from './whatif/words/goal.ts';

export interface RiskQuestion {
  /** Results, in a maker's words; where empty the margin of every price and the month's profit. */
  readonly of: readonly string[];
  readonly draws: number;
  readonly seed: number;
  /** What counts as missed; each price's own wanted margin where absent, and nothing for amounts. */
  readonly miss?: string;
  readonly prices: PriceRule;
}

/** How results come out where inputs lie within their ranges. */
export interface RiskReport extends DrawnRisk {
  readonly workshop: string;
  readonly currency: string;
  readonly prices: PriceRule;
  readonly draws: number;
  readonly seed: number;
  readonly inputs: readonly Pick<UncertainInput, 'input' | 'of' | 'shape'>[];
}

/** Draws the inputs that ranges.csv holds and calculates the results of each draw. */
export function riskBook(source: Source, question: RiskQuestion): Swept<RiskReport> {
  const { priced, swept } = sweptBook(source, question.prices);
  if (swept === undefined) return { problems: priced.problems, priced };
  const problems: Problem[] = [...priced.problems];
  const { plan, values } = swept;
  const read = readRanges(plan);
  const sampled = sampledInputs(priced, plan, read.ranges.sampled);
  problems.push(...read.problems, ...sampled.problems);
  const uncertain = [...read.ranges.inputs, ...sampled.inputs];
  if (uncertain.length === 0 && !hasErrors(problems))
    problems.push(
      problem(
        'change-unclear',
        { file: 'ranges.csv' },
        'Nothing is uncertain in this book: it has no ranges of inputs.',
        {
          accepted: 'rows such as: wage, triangular, 19, 21, 26 (below input, shape, low, likely, high)',
          mend: 'Write down how far wage, prices of cord and minutes may be off.',
        },
      ),
    );
  const goals = goalsOf(question, swept, problems);
  if (hasErrors(problems)) return { problems, priced };
  return {
    problems,
    priced,
    report: {
      workshop: plan.settings.workshop,
      currency: plan.settings.currency,
      prices: question.prices,
      draws: question.draws,
      seed: question.seed,
      inputs: uncertain.map(({ input, of, shape }) => ({ input, of, shape })),
      ...riskOf(plan, values, uncertain, goals, question),
    },
  };
}

function goalsOf(question: RiskQuestion, book: SweptBook, problems: Problem[]): Goal[] {
  const all = question.of.length === 0;
  const named = all ? ['margin', ...(hasMonth(book) ? ["month's profit"] : [])] : question.of;
  const results = named.flatMap((text): readonly FoundResult[] => {
    const found = resultsNamed(text, book);
    if (!isFault(found)) return found;
    problems.push(asked(text, found));
    return [];
  });
  let told = false;
  return results.map((result): Goal => {
    // Of all results together, a wanted margin is meant for the margins.
    const meant = question.miss !== undefined && (!all || result.kind === 'percent');
    const worse = moreIsWorse(result) ? 'more' : 'less';
    if (!meant) return { result, worse, wanted: usualGoal(result, book) };
    const read = readFigure(question.miss ?? '', result, book.plan);
    if (!isFault(read)) return { result, worse, wanted: read.value };
    if (!told) problems.push(asked(question.miss ?? '', read));
    told = true;
    return { result, worse, wanted: null };
  });
}

function hasMonth({ plan }: SweptBook): boolean {
  return plan.sheets.some(({ id }) => id === 'month');
}

/** What a piece costs and takes, and what must be sold, had better be less. */
function moreIsWorse({ sheet, column }: FoundResult): boolean {
  return (
    ['costs', 'cuts', 'break_even'].includes(sheet) ||
    ['unit_cost', 'floor', 'fees', 'bench_hours', 'overhead'].includes(column) ||
    column.startsWith('break_even')
  );
}

/**
 * A margin is missed where it is less than the one wanted there, the month's profit where it is less than the profit
 * wanted, any other earning where it is less than nothing.
 */
function usualGoal({ sheet, column, row }: FoundResult, { values }: SweptBook): number | null {
  if (sheet === 'prices' && column === 'margin') return values.number('prices', 'wanted_margin', row);
  if (sheet === 'month' && column === 'profit') return values.number('rates', 'wanted_profit_before_tax', 0);
  if (sheet === 'month' && column === 'profit_after_tax')
    return Number(values.get('rates', 'wanted_profit_per_month', 0) ?? 0);
  return ['contribution', 'profit', 'profit_after_tax', 'contribution_per_hour'].includes(column) ? 0 : null;
}
