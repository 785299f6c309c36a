import { type Problem, placeText } from './problem.ts';

/**
 * One problem as plain text: where and what on the first line, then what was found (where the message does
 * not quote it), what is accepted and how to mend it. Lines are not wrapped. A problem that does not stop
 * the book from being priced begins with `Look:`.
 */
export function problemText(problem: Problem): string {
  const { found, accepted, mend } = problem;
  const lines = [
    `${problem.severity === 'watch' ? 'Look: ' : ''}${placeText(problem.where)}: ${problem.message}`,
  ];
  if (found !== '' && !problem.message.includes(found)) lines.push(`  Found: ${found}`);
  if (accepted !== '') lines.push(`  Accepted: ${accepted}`);
  if (mend !== '') lines.push(`  Mend: ${mend}`);
  return lines.join('\n');
}

/** Several problems, in the order given, with a blank line between them. */
export function problemsText(problems: readonly Problem[]): string {
  return problems.map(problemText).join('\n\n');
}
