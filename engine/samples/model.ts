import type { Sample, SampledWeave } from './sample.ts';

/** The column of weaves.csv that a fit finds. */
export type Parameter = 'pitch_ratio' | 'layered_pitch_ratio' | 'angle' | 'measured_take_up';

/** How a weave's take-up follows from the one figure that is fitted; monotone between `low` and `high`. */
export interface Model {
  readonly parameter: Parameter;
  readonly low: number;
  readonly high: number;
  takeUp(sample: Sample, value: number): number;
}

/** From a tenth of a cord to twenty cords a knot: beyond both nothing is a weave any more. */
const pitchRange = { low: 0.1, high: 20 };
const angleRange = { low: 0.1, high: 89.9 };

/** Take-up itself: where geometry has nothing to fit, or the maker trusts the tape alone. */
export const takeUpModel: Model = {
  parameter: 'measured_take_up',
  low: 1,
  high: 1e6,
  takeUp: (_sample, value) => value,
};

/**
 * The geometry of a weave's family, as the sheet Samples works it out, with the figure that the family needs
 * set free; undefined where it needs none.
 */
export function geometryModel(weave: SampledWeave, layered: boolean): Model | undefined {
  switch (weave.needs) {
    case 'pitch':
      return {
        parameter: layered ? 'layered_pitch_ratio' : 'pitch_ratio',
        ...pitchRange,
        takeUp: (sample, pitch) => sample.takeUpByPitch(pitch),
      };
    case 'angle':
      return { parameter: 'angle', ...angleRange, takeUp: (sample, angle) => sample.takeUpByAngle(angle) };
    default:
      return undefined;
  }
}

/** By how many per cent the take-up changes where the figure changes by one per cent; signed. */
export function sensitivity(model: Model, sample: Sample, value: number): number {
  const step = 1e-5;
  const [less, more] = [value * (1 - step), value * (1 + step)];
  return (
    (Math.log(model.takeUp(sample, more)) - Math.log(model.takeUp(sample, less))) /
    (Math.log(more) - Math.log(less))
  );
}
