import { type Problem, problem } from '../book/problems/problem.ts';
import { referencesIn } from './expression.ts';
import type { Plan, PlanColumn } from './plan.ts';

/**
 * Columns that need each other. The chain is told by headings; one problem a circle.
 * A circle counts even where an IF would never take the branch, as it does in the calculation engine.
 */
export function findCircles(plan: Plan): Problem[] {
  const problems: Problem[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const columns = new Map<string, { title: string; column: PlanColumn }>();
  for (const sheet of plan.sheets) {
    for (const column of sheet.columns)
      columns.set(`${sheet.id}.${column.id}`, { title: sheet.title, column });
  }
  const chain: string[] = [];

  function visit(id: string): void {
    const node = columns.get(id);
    if (node === undefined || state.get(id) === 'done') return;
    if (state.get(id) === 'open') {
      const loop = [...chain.slice(chain.indexOf(id)), id].map((each) => {
        const member = columns.get(each);
        return `${member?.title}: ${member?.column.heading}`;
      });
      problems.push(
        problem(
          'circle',
          { ...node.column.at, column: node.column.heading },
          `These columns need each other: ${loop.join(' → ')}.`,
          {
            found: loop.join(' → '),
            accepted: 'formulas that end in inputs',
            mend: 'Break the chain: let one of them use an input instead.',
          },
        ),
      );
      return;
    }
    state.set(id, 'open');
    chain.push(id);
    const formulas =
      node.column.formula === undefined ? (node.column.rowFormulas ?? []) : [node.column.formula];
    for (const formula of formulas) {
      for (const reference of referencesIn(formula)) visit(`${reference.sheet}.${reference.column}`);
    }
    chain.pop();
    state.set(id, 'done');
  }
  for (const id of columns.keys()) visit(id);
  return problems;
}
