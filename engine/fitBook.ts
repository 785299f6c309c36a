import { convertLength } from './book/measures/measure.ts';
import { hasErrors, type Problem } from './book/problems/problem.ts';
import type { Priced } from './priceBook.ts';
import type { FitChoice } from './samples/fitFigure.ts';
import { fitSamples, type WeaveFit } from './samples/fitSamples.ts';
import { type Sample, samplesOf } from './samples/sample.ts';

export interface FitQuestion {
  /** Only this weave; absent for all that have samples. */
  readonly weave?: string;
  /** Samples to leave out, by name. */
  readonly without: readonly string[];
  /** Fit the take-up itself instead of pitch or angle. */
  readonly takeUp: boolean;
}

export interface FittedBook {
  /** Every sample of the book, also those that the question leaves out. */
  readonly samples: readonly Sample[];
  /** Fits by weave; empty where an error stands in the way. */
  readonly weaves: readonly WeaveFit[];
  readonly choice: FitChoice;
  readonly leftOut: readonly string[];
  /** What is wrong with the samples in question, and what to look at in their fits. */
  readonly problems: readonly Problem[];
}

/**
 * Fits the samples of a calculated book. Other faults of the book do not matter: a weave without a pitch,
 * which cannot be priced yet, is just what a fit is for.
 *
 * @param priced with plan and values; without them there is nothing to fit
 */
export function fitBook(priced: Priced, question: FitQuestion): FittedBook | undefined {
  const { plan, values } = priced;
  if (plan === undefined || values === undefined) return undefined;
  const samples = samplesOf(plan, values);
  const without = new Set(question.without.map((each) => each.toLowerCase()));
  const ofWeave = samples.filter(
    ({ weave }) => question.weave === undefined || weave.weave.toLowerCase() === question.weave.toLowerCase(),
  );
  const chosen = ofWeave.filter(({ sample }) => !without.has(sample.toLowerCase()));
  const choice: FitChoice = {
    readingErrorMm: convertLength(values.number('rates', 'reading_error', 0), plan.settings.lengthUnit, 'mm'),
    chanceOfShort: values.number('rates', 'chance_of_short_percent', 0),
    assumedSpreadRatio: values.number('rates', 'assumed_spread_percent', 0),
  };
  const leftOut = ofWeave.filter((each) => !chosen.includes(each)).map(({ sample }) => sample);
  const told = (some: readonly Sample[]): Problem[] => {
    const rows = new Set(some.map(({ where }) => where.row));
    return priced.problems.filter(
      ({ code, where }) => code === 'check-failed' && where.file === 'samples.csv' && rows.has(where.row),
    );
  };
  const faulty = chosen.filter((each) => each.faulty);
  if (faulty.length > 0) {
    // For prices such a sample is a thing to look at; a fit cannot go on with it.
    const problems = told(faulty).map((each): Problem => ({ ...each, severity: 'error' }));
    return { samples, weaves: [], choice, leftOut, problems };
  }
  const { weaves, problems: found } = fitSamples(chosen, choice, question.takeUp);
  const problems = [...told(chosen), ...found];
  return { samples, weaves: hasErrors(problems) ? [] : weaves, choice, leftOut, problems };
}
