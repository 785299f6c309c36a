import { type Problem, problemText } from '../../engine/index.ts';
import type { Style } from './style.ts';

/** All problems, errors first, with a line that counts them. */
export function showProblems(problems: readonly Problem[], style: Style): string {
  if (problems.length === 0) return '';
  const errors = problems.filter((each) => each.severity === 'error');
  const watches = problems.filter((each) => each.severity === 'watch');
  const counted = [
    count(errors.length, 'error'),
    count(watches.length, 'thing to look at', 'things to look at'),
  ].filter((part) => part !== '');
  const blocks = [
    ...errors.map((each) => paint(problemText(each), style.bad)),
    ...watches.map((each) => paint(problemText(each), style.watch)),
  ];
  return `${counted.join(', ')}.\n\n${blocks.join('\n\n')}\n`;
}

/** Colours the first line only: the place and what is wrong. */
function paint(text: string, colour: (text: string) => string): string {
  const [first = '', ...rest] = text.trimEnd().split('\n');
  return [colour(first), ...rest].join('\n');
}

/** "1 product", "3 products", or nothing for none. */
export function count(number: number, one: string, many = `${one}s`): string {
  return number === 0 ? '' : `${number} ${number === 1 ? one : many}`;
}
