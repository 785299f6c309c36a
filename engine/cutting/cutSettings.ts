import { convertLength } from '../book/measures/measure.ts';
import type { Values } from '../calc/values.ts';
import type { Plan } from '../sheets/plan.ts';
import type { CutBookOptions } from './cutMaterial.ts';

/** What the sheet Rates says of cutting: which ends are kept, and what a cut loses. */
export function cutSettings(plan: Plan, values: Values): Pick<CutBookOptions, 'keepMm' | 'cutLossMm'> {
  const { cordUnit, lengthUnit } = plan.settings;
  return {
    keepMm: convertLength(values.number('rates', 'keep_from', 0), cordUnit, 'mm'),
    cutLossMm: convertLength(values.number('rates', 'cut_loss', 0), lengthUnit, 'mm'),
  };
}
