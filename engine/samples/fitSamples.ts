import { hasErrors, type Problem, problem } from '../book/problems/problem.ts';
import { type FitChoice, fitFigure, type SampleFit } from './fitFigure.ts';
import { geometryModel, type Model, takeUpModel } from './model.ts';
import type { Sample, SampledWeave } from './sample.ts';
import { type Reading, weightedMean } from './weightedMean.ts';

/** Core take-up of a weave from the samples whose core was measured. */
export interface CoreFit {
  readonly count: number;
  readonly value: number;
  readonly standardError: number;
}

/** All that the samples say of one weave. */
export interface WeaveFit {
  readonly weave: SampledWeave;
  readonly fits: readonly SampleFit[];
  readonly core?: CoreFit;
}

/**
 * Fits every weave that has samples: the pitch of its single bars, the pitch of its bars of more layers, the
 * angle of its strands, or its take-up where the book already goes by one.
 *
 * @param takeUp fit the take-up itself, whatever the family
 * @returns fits of weaves without errors, and every problem
 */
export function fitSamples(
  samples: readonly Sample[],
  choice: FitChoice,
  takeUp: boolean,
): { weaves: WeaveFit[]; problems: Problem[] } {
  const byWeave = new Map<string, Sample[]>();
  for (const sample of samples) {
    byWeave.set(sample.weave.weave, [...(byWeave.get(sample.weave.weave) ?? []), sample]);
  }
  const weaves: WeaveFit[] = [];
  const problems: Problem[] = [];
  for (const own of byWeave.values()) {
    const weave = own[0]?.weave;
    if (weave === undefined) continue;
    const grouped = groups(own, weave, takeUp);
    problems.push(...grouped.problems);
    const fits: SampleFit[] = [];
    for (const { samples: some, model } of grouped.groups) {
      const result = fitFigure(some, model, choice);
      problems.push(...result.problems);
      if (result.fit !== undefined) fits.push(result.fit);
    }
    const core = coreFit(own, choice);
    if (fits.length > 0) weaves.push({ weave, fits, ...(core === undefined ? {} : { core }) });
  }
  return { weaves: hasErrors(problems) ? [] : weaves, problems };
}

interface Group {
  readonly samples: readonly Sample[];
  readonly model: Model;
}

/** Which samples bear on which figure of their weave. */
function groups(
  samples: readonly Sample[],
  weave: SampledWeave,
  takeUp: boolean,
): { groups: Group[]; problems: Problem[] } {
  const alike = samples.every(
    ({ layers, coreStrands }) => layers === samples[0]?.layers && coreStrands === samples[0]?.coreStrands,
  );
  const geometry = geometryModel(weave, false);
  // Where a measured take-up stands in weaves.csv the sheets go by it, so that a fitted pitch would do nothing.
  if (takeUp || geometry === undefined || (weave.measuredTakeUp !== null && alike)) {
    return alike
      ? { groups: [{ samples, model: takeUpModel }], problems: [] }
      : { groups: [], problems: [unlike(samples)] };
  }
  const parts: Group[] = [];
  for (const layered of [false, true]) {
    const model = geometryModel(weave, layered);
    const some = samples.filter(({ layers }) => layers > 1 === layered);
    if (model !== undefined && some.length > 0) parts.push({ samples: some, model });
  }
  return { groups: parts, problems: weave.measuredTakeUp === null ? [] : [overruled(samples, weave)] };
}

function coreFit(samples: readonly Sample[], { readingErrorMm }: FitChoice): CoreFit | undefined {
  const readings = samples.flatMap(({ coreTakeUp, coreStrands, wovenMm }): Reading[] => {
    if (coreTakeUp === null) return [];
    const used = coreTakeUp * coreStrands * wovenMm;
    return [
      {
        value: coreTakeUp,
        error: coreTakeUp * Math.hypot((readingErrorMm * Math.SQRT2) / used, readingErrorMm / wovenMm),
      },
    ];
  });
  if (readings.length === 0) return undefined;
  const mean = weightedMean(readings);
  // A core cannot be shorter than its bar; a reading just under 1 is the tape's error.
  return { count: readings.length, value: Math.max(1, mean.value), standardError: mean.standardError };
}

function unlike(samples: readonly Sample[]): Problem {
  const [first] = samples;
  return problem(
    'check-failed',
    { file: first?.where.file ?? 'samples.csv' },
    `The samples of weave ${first?.weave.weave} differ in layers or core strands, so no one measured take-up holds for all of them.`,
    {
      mend: 'Leave out --take-up, so that the pitch is fitted; or give the kinds weaves of their own.',
    },
  );
}

function overruled(samples: readonly Sample[], weave: SampledWeave): Problem {
  return problem(
    'check-failed',
    { file: 'weaves.csv', column: 'measured_take_up' },
    `Weave ${weave.weave} has a measured take-up, which goes before any pitch, and its ${samples.length} samples differ in layers or core strands.`,
    {
      severity: 'watch',
      mend: 'Clear measured_take_up in weaves.csv if the fitted pitch is to be used.',
    },
  );
}
