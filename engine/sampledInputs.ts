import { hasErrors, type Problem, problem } from './book/problems/problem.ts';
import { fitBook } from './fitBook.ts';
import type { Priced } from './priceBook.ts';
import type { Plan } from './sheets/plan.ts';
import { moverOf } from './whatif/mover.ts';
import type { SampledRange } from './whatif/sweeps/ranges.ts';
import type { UncertainInput } from './whatif/sweeps/uncertain.ts';

/**
 * Figures of weaves with the error that their test pieces leave: the pitch, angle or take-up that `sennit fit` finds,
 * normal about the fitted figure with its standard error. A weave of which bars and layered bars were measured has two.
 *
 * @param plan the one in which the figures will be moved
 */
export function sampledInputs(
  priced: Priced,
  plan: Plan,
  ranges: readonly SampledRange[],
): { readonly inputs: readonly UncertainInput[]; readonly problems: readonly Problem[] } {
  const inputs: UncertainInput[] = [];
  const problems: Problem[] = [];
  const weaves = plan.sheets.find(({ id }) => id === 'weaves');
  const names = weaves?.columns.find(({ id }) => id === 'weave')?.inputs ?? [];
  for (const { input, weave, where } of ranges) {
    const fitted = fitBook(priced, { weave, without: [], takeUp: false });
    const fits = fitted?.weaves.flatMap((each) => each.fits) ?? [];
    if (fitted === undefined || hasErrors(fitted.problems) || fits.length === 0) {
      problems.push(
        problem('change-unclear', where, `The test pieces of the weave “${weave}” cannot be fitted.`, {
          found: input,
          accepted: 'a weave that sennit fit can fit',
          mend: `See sennit fit --weave "${weave}" for what is wrong with them.`,
        }),
      );
      continue;
    }
    const row = names.indexOf(weave);
    for (const { parameter, value, standardError } of fits) {
      const name = fits.length === 1 ? input : `${input} (${parameter.replaceAll('_', ' ')})`;
      inputs.push({
        input: name,
        mover: moverOf(name, [{ sheet: 'weaves', column: parameter, rows: [row] }], plan),
        of: 'value',
        shape: { form: 'normal', middle: value, below: standardError, above: standardError },
      });
    }
  }
  return { inputs, problems };
}
