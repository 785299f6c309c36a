import { studentChance, studentQuantile } from '../../engine/chance/student.ts';
import { bar } from '../../engine/cord/bar.ts';
import { braid } from '../../engine/cord/braid.ts';
import { plait } from '../../engine/cord/plait.ts';
import { wrap } from '../../engine/cord/wrap.ts';
import { fitFigure } from '../../engine/samples/fitFigure.ts';
import { geometryModel } from '../../engine/samples/model.ts';
import type { Sample, SampledWeave } from '../../engine/samples/sample.ts';

/** Even numbers from 0 to 1 that are the same in every run (mulberry32, from memory). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal numbers of mean 0 and standard deviation 1 (Box and Muller). */
export function normalFrom(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export const testBar: SampledWeave = {
  weave: 'bar',
  family: 'bar',
  needs: 'pitch',
  pitchRatio: 1.17,
  layeredPitchRatio: 1.375,
  angleDegrees: null,
  measuredTakeUp: null,
  coreTakeUp: 1,
};

/** A sample of which only the figures that a test is about need be named. */
export function sampleOf(figures: Partial<Sample> & { readonly takeUp: number }): Sample {
  const wovenMm = figures.wovenMm ?? 200;
  const { weave = testBar, coreStrands = 2, layers = 1 } = figures;
  return {
    sample: 'piece',
    weave: testBar,
    layers: 1,
    coreStrands: 2,
    diameterMm: null,
    wovenMm,
    usedMm: figures.takeUp * 2 * wovenMm,
    workingCords: 2,
    takeUpByPitch: (pitch) =>
      weave.family === 'wrap' ? wrap.compute(coreStrands, pitch) : bar.compute(coreStrands, 1, layers, pitch),
    takeUpByAngle: (angle) =>
      weave.family === 'round braid'
        ? braid.compute(angle)
        : plait.compute(3, angle, weave.pitchRatio ?? 1 / Math.sin((angle * Math.PI) / 180)),
    halfKnots: null,
    countedPitch: null,
    coreTakeUp: null,
    remark: '',
    faulty: false,
    where: { file: 'samples.csv', row: 2 },
    ...figures,
  };
}

export interface Workshop {
  readonly pitch: number;
  /** How far pieces differ in pitch, as a share. */
  readonly pitchSpreadRatio: number;
  readonly readingErrorMm: number;
  readonly fewestSamples: number;
  readonly mostSamples: number;
  readonly counted: boolean;
  readonly chanceOfShort: number;
  readonly assumedSpreadRatio: number;
}

/** A workshop like many: a 3 % hand, a tape read to a sixteenth of an inch, a few samples. Invented. */
export const usual: Workshop = {
  pitch: 1.2,
  pitchSpreadRatio: 0.03,
  readingErrorMm: 1.6,
  fewestSamples: 3,
  mostSamples: 8,
  counted: false,
  chanceOfShort: 0.02,
  assumedSpreadRatio: 0.04,
};

export interface Simulated {
  readonly runs: number;
  /** Runs whose 95 % interval holds the true pitch. */
  readonly covered: number;
  /** Mean over the runs of the chance that the next piece takes more than was cut. */
  readonly shortChance: number;
}

/**
 * Weaves pieces in the computer and fits them. Nothing of the fit is used to make them but the bar's own
 * geometry: each piece has its pitch, is measured by a tape that errs, and its half knots are counted down
 * to whole ones; the diameter is measured once, over ten strands.
 */
export function simulate(workshop: Workshop, runs: number, seed: number): Simulated {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const diameter = 4;
  const model = geometryModel(testBar, false);
  if (model === undefined) throw new Error('a bar has a geometry');
  let covered = 0;
  let shortSum = 0;
  for (let run = 0; run < runs; run += 1) {
    const tape = (mm: number): number => mm + workshop.readingErrorMm * normal();
    const count =
      workshop.fewestSamples + Math.floor(random() * (workshop.mostSamples - workshop.fewestSamples + 1));
    const diameterMm = diameter + (workshop.readingErrorMm / 10) * normal();
    const samples = Array.from({ length: count }, (_, at): Sample => {
      const woven = 150 + 150 * random();
      const core = random() < 0.5 ? 2 : 4;
      const pitch = workshop.pitch * (1 + workshop.pitchSpreadRatio * normal());
      const cordIn = 3000;
      const cordLeft = cordIn - 2 * woven * bar.compute(core, 1, 1, pitch);
      const usedMm = tape(cordIn) - tape(cordLeft);
      const wovenMm = tape(woven);
      const halfKnots = Math.round(woven / (pitch * diameter));
      return sampleOf({
        sample: `piece ${at + 1}`,
        coreStrands: core,
        takeUp: usedMm / 2 / wovenMm,
        wovenMm,
        usedMm,
        ...(workshop.counted
          ? { halfKnots, diameterMm, countedPitch: wovenMm / halfKnots / diameterMm }
          : {}),
      });
    });
    const { fit: found } = fitFigure(samples, model, workshop);
    if (found === undefined) throw new Error('a simulated sample could not be fitted');
    if (found.low <= workshop.pitch && workshop.pitch <= found.high) covered += 1;
    const cut = model.takeUp(sampleOf({ takeUp: 5 }), found.value) * (1 + found.spare.extraRatio);
    shortSum += chanceOfTakingMore(cut, workshop);
  }
  return { runs, covered, shortChance: shortSum / runs };
}

/** A normal distribution in 25 parts of the same weight. */
const slices = Array.from({ length: 25 }, (_, at) =>
  studentQuantile((at + 0.5) / 25, Number.POSITIVE_INFINITY),
);

/**
 * Chance that the next two-core piece takes more than was cut. It is woven until the tape reads 200 mm, so
 * that it may be a little longer, and runs short where it is tied tightly enough.
 */
function chanceOfTakingMore(cut: number, workshop: Workshop): number {
  let sum = 0;
  for (const normal of slices) {
    const longer = (normal * workshop.readingErrorMm) / 200;
    let tightest = workshop.pitch;
    for (let step = 0; step < 60; step += 1) {
      tightest *= (bar.compute(2, 1, 1, tightest) * (1 + longer)) / cut;
    }
    sum += studentChance(
      (tightest / workshop.pitch - 1) / workshop.pitchSpreadRatio,
      Number.POSITIVE_INFINITY,
    );
  }
  return sum / slices.length;
}
