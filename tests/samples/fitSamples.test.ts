import { describe, expect, it } from 'vitest';
import { bar } from '../../engine/cord/bar.ts';
import { fitSamples } from '../../engine/samples/fitSamples.ts';
import { sampleOf, testBar } from './simulate.ts';

const choice = { readingErrorMm: 1.6, chanceOfShort: 0.02, assumedSpreadRatio: 0.04 };
const layered = (layers: number, pitch: number) =>
  sampleOf({ layers, takeUp: bar.compute(2, 1, layers, pitch) });
const measured = { ...testBar, measuredTakeUp: 5 };

describe('fitSamples', () => {
  it('fits single bars and bars of more layers apart', () => {
    const { weaves } = fitSamples([layered(1, 1.2), layered(1, 1.22), layered(2, 1.4)], choice, false);
    expect(weaves[0]?.fits.map(({ parameter, pieces }) => [parameter, pieces.length])).toEqual([
      ['pitch_ratio', 2],
      ['layered_pitch_ratio', 1],
    ]);
  });

  it('fits the take-up where the book goes by one, as a pitch would do nothing', () => {
    const { weaves } = fitSamples([sampleOf({ weave: measured, takeUp: 5.1 })], choice, false);
    expect(weaves[0]?.fits.map((each) => each.parameter)).toEqual(['measured_take_up']);
  });

  it('says so where a measured take-up stands before the fitted pitch', () => {
    const samples = [1, 2].map((layers) => ({ ...layered(layers, 1.3), weave: measured }));
    const { weaves, problems } = fitSamples(samples, choice, false);
    expect(weaves).toHaveLength(1);
    expect(problems.map((each) => [each.severity, each.where.column])).toEqual([
      ['watch', 'measured_take_up'],
    ]);
  });

  it('refuses one take-up for samples of different layers or cores', () => {
    const { weaves, problems } = fitSamples([layered(1, 1.2), layered(2, 1.2)], choice, true);
    expect(weaves).toEqual([]);
    expect(problems.map((each) => each.severity)).toEqual(['error']);
  });

  it('takes the mean of core take-ups, and none under 1', () => {
    const cores = (...takeUps: number[]) =>
      fitSamples(
        takeUps.map((coreTakeUp) => ({ ...layered(1, 1.2), coreTakeUp })),
        choice,
        false,
      ).weaves[0]?.core;
    expect(cores(1.02, 1.04)?.value).toBeCloseTo(1.03, 3);
    expect(cores(0.99)?.value).toBe(1);
    expect(cores()).toBeUndefined();
  });
});
