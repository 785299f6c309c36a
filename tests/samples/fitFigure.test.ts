import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { braid } from '../../engine/cord/braid.ts';
import { plait } from '../../engine/cord/plait.ts';
import { wrap } from '../../engine/cord/wrap.ts';
import { fitFigure, type SampleFit } from '../../engine/samples/fitFigure.ts';
import { geometryModel, type Model, sensitivity, takeUpModel } from '../../engine/samples/model.ts';
import type { Sample, SampledWeave } from '../../engine/samples/sample.ts';
import { sampleOf, testBar } from './simulate.ts';

const choice = { readingErrorMm: 1.6, chanceOfShort: 0.02, assumedSpreadRatio: 0.04 };
const barModel = modelOf(testBar);

function modelOf(weave: SampledWeave, layered = false): Model {
  const model = geometryModel(weave, layered);
  if (model === undefined) throw new Error(`${weave.family} has no geometry`);
  return model;
}

function fitOf(samples: readonly Sample[], model: Model = barModel): SampleFit {
  const { fit } = fitFigure(samples, model, choice);
  if (fit === undefined) throw new Error('no fit');
  return fit;
}

const barPiece = (sample: string, pitch: number, core = 2): Sample =>
  sampleOf({ sample, coreStrands: core, takeUp: bar.compute(core, 1, 1, pitch) });

describe('fitFigure', () => {
  it.each([
    ['bar', 1.23, (c: number) => bar.compute(4, 1, 3, c)],
    ['wrap', 1.05, (c: number) => wrap.compute(4, c)],
    ['round braid', 37.5, (a: number) => braid.compute(a)],
    ['flat plait', 41, (a: number) => plait.compute(3, a, 1 / Math.sin((a * Math.PI) / 180))],
  ])('finds the figure that pieces of a %s were made with', (family, figure, takeUp) => {
    const needs = family === 'bar' || family === 'wrap' ? ('pitch' as const) : ('angle' as const);
    const weave = { ...testBar, family, needs, pitchRatio: null };
    const samples = [0.999, 1, 1.001].map((factor) =>
      sampleOf({ weave, layers: family === 'bar' ? 3 : 1, coreStrands: 4, takeUp: takeUp(figure * factor) }),
    );
    const fit = fitOf(samples, modelOf(weave, family === 'bar'));
    expect(fit.value).toBeCloseTo(figure, 3);
    expect(fit.low).toBeLessThan(figure);
    expect(fit.high).toBeGreaterThan(figure);
  });

  it('agrees with plain least squares on the measured cord, found by walking down the sum of squares', () => {
    const samples = [1.15, 1.19, 1.21, 1.17].map((pitch, at) => barPiece(`piece ${at}`, pitch));
    const squares = (pitch: number): number =>
      samples.reduce((sum, each) => sum + (each.takeUp - bar.compute(2, 1, 1, pitch)) ** 2, 0);
    let best = 1;
    for (let pitch = 1; pitch < 1.5; pitch += 0.0001) if (squares(pitch) < squares(best)) best = pitch;
    expect(Math.abs(fitOf(samples).value - best)).toBeLessThan(0.001);
  });

  it('gives the textbook interval where the tape is perfect: mean, s / sqrt(n), t of n - 1', () => {
    const pitches = [1.15, 1.19, 1.21, 1.17, 1.18];
    const samples = pitches.map((pitch, at) => barPiece(`piece ${at}`, pitch));
    const { fit } = fitFigure(samples, barModel, { ...choice, readingErrorMm: 0 });
    // Sum of squares about the mean 1.18 is 0.002; t of 4 degrees for 95 % is 2.776 (printed table, from memory).
    const error = Math.sqrt(0.002 / 4 / 5);
    expect(fit?.value).toBeCloseTo(1.18, 6);
    expect(fit?.standardError).toBeCloseTo(error, 6);
    expect(fit?.high).toBeCloseTo(1.18 + 2.776 * error, 4);
  });

  it('never claims to know more than the tape lets it', () => {
    const fit = fitOf([barPiece('one', 1.2), barPiece('two', 1.2), barPiece('three', 1.2)]);
    // The woven length alone is read to 1.6 in 200 mm, 0.8 %, and a bar's pitch goes with it somewhat more.
    expect(fit.standardError / fit.value).toBeGreaterThan(0.008 / Math.sqrt(3));
    expect(fit.spare.extraRatio).toBeGreaterThan(2 * 0.008);
  });

  it('gives a point and the assumed spread for one sample', () => {
    const fit = fitOf([barPiece('only', 1.2)]);
    expect(fit.value).toBeCloseTo(1.2, 9);
    expect(fit.spreadFrom).toBe('assumed');
    expect(fit.cord.spreadRatio).toBe(choice.assumedSpreadRatio);
    expect(fit.spare.extraRatio).toBeGreaterThan(2.05 * Math.SQRT2 * choice.assumedSpreadRatio);
  });

  it('names an outlier, keeps it in, and says how to leave it out', () => {
    const samples = [1.19, 1.2, 1.21, 1.2, 1.195].map((pitch, at) => barPiece(`piece ${at + 1}`, pitch));
    const { fit, problems } = fitFigure([...samples, barPiece('odd one', 1.5)], barModel, choice);
    expect(problems.map((each) => [each.code, each.severity])).toEqual([['check-failed', 'watch']]);
    expect(problems[0]?.message).toContain('Sample odd one took less cord');
    expect(problems[0]?.mend).toContain('--without "odd one"');
    expect(fit?.pieces.filter((each) => each.outlier).map((each) => each.piece.sample.sample)).toEqual([
      'odd one',
    ]);
    expect(fit?.value).toBeGreaterThan(1.22);
  });

  it('names no outlier among good samples', () => {
    const samples = [1.17, 1.2, 1.24, 1.21, 1.18].map((pitch, at) => barPiece(`piece ${at + 1}`, pitch));
    expect(fitFigure(samples, barModel, choice).problems).toEqual([]);
  });

  it('weighs counted half knots by how well diameter and count are known', () => {
    const counted = (diameterMm: number): SampleFit =>
      fitOf([
        sampleOf({
          takeUp: bar.compute(2, 1, 1, 1.2),
          diameterMm,
          halfKnots: 40,
          countedPitch: 1.3,
        }),
      ]);
    // Ten strands of thick cord are read to a smaller share of their width than ten of thin cord.
    const [thin, thick] = [counted(2).value, counted(10).value];
    expect(thin).toBeGreaterThan(1.2);
    expect(thick).toBeGreaterThan(thin);
    expect(thick).toBeLessThan(1.3);
  });

  it('says so where counts and cord cannot both be right', () => {
    const samples = [1.19, 1.2, 1.21].map((pitch, at) => ({
      ...barPiece(`piece ${at}`, pitch),
      diameterMm: 4,
      halfKnots: 40,
      countedPitch: 1.6,
    }));
    const { problems } = fitFigure(samples, barModel, choice);
    expect(problems[0]?.message).toContain('say a pitch of 1.60, the cord that was used 1.20');
    expect(problems[0]?.severity).toBe('watch');
  });

  it('refuses a sample that no pitch explains', () => {
    const { fit, problems } = fitFigure([sampleOf({ sample: 'straight', takeUp: 1.01 })], barModel, choice);
    expect(fit).toBeUndefined();
    expect(problems.map((each) => [each.code, each.severity, each.where.row])).toEqual([
      ['calculation-failed', 'error', 2],
    ]);
  });

  it('falls back to the take-up itself', () => {
    const fit = fitOf(
      [3.5, 3.6, 3.7].map((takeUp) => sampleOf({ takeUp })),
      takeUpModel,
    );
    expect(fit.parameter).toBe('measured_take_up');
    expect(fit.value).toBeCloseTo(3.6, 3);
  });
});

describe('sensitivity', () => {
  it('is one for the take-up itself, and the slope of a braid by its tangent', () => {
    expect(sensitivity(takeUpModel, sampleOf({ takeUp: 3 }), 3)).toBeCloseTo(1, 8);
    const weave: SampledWeave = { ...testBar, family: 'round braid', needs: 'angle' };
    const model = modelOf(weave);
    const angle = (40 * Math.PI) / 180;
    // d ln(1 / cos a) / d ln a = a tan a.
    expect(sensitivity(model, sampleOf({ weave, takeUp: 1.3 }), 40)).toBeCloseTo(angle * Math.tan(angle), 6);
  });
});
