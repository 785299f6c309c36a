import { mendName } from '../../book/problems/nearest.ts';
import type { Plan, PlanSheet } from '../../sheets/plan.ts';
import type { ChangeFault } from './change.ts';

/** The sheet that is asked for by its name in the sheet language, or what is said where there is none. */
export function namedSheet(plan: Plan, name: string): PlanSheet | ChangeFault {
  const all = plan.sheets.map(({ id }) => id);
  return (
    plan.sheets.find(({ id }) => id === name.toLowerCase()) ?? {
      message: `There is no sheet “${name}”.`,
      accepted: all.join(', '),
      mend: mendName(name, all),
    }
  );
}
