import type { CheckedAnswer, SolvedPoint, SolveReport } from '../../engine/index.ts';
import { capital, pricesText, resultText } from './resultText.ts';
import type { ShowHow } from './showPrices.ts';
import { showProblems } from './showProblems.ts';
import { wrap } from './table.ts';

/** The answer first; every answer where there are several, and how far the result comes where there is none. */
export function showSolve(report: SolveReport, how: ShowHow): string {
  const { answers, result, input, today, resultToday, prices } = report;
  const wanted = wantedText(report);
  const now = `${capital(today === '' ? '' : `${input} is ${today}, `)}${today === '' ? capital(result.name) : result.name} ${resultText(resultToday, result, how.settings)} today.`;
  const [first, second] = answers;
  const lines = [
    ...(first === undefined ? none(report, how) : []),
    ...(second === undefined
      ? []
      : [
          `${answers.length} figures of ${input} between ${report.from} and ${report.to} make ${result.name} ${wanted}.`,
        ]),
    ...answers.flatMap((each) => answerLines(each, report, how)),
    now,
    pricesText(prices),
  ];
  const problems = answers.flatMap(({ checks }) => checks.flatMap((each) => each.problems));
  const told = lines.flatMap((line) => wrap(line, how.width)).join('\n');
  const shown =
    problems.length === 0 ? '' : `\nThe book then says:\n${showProblems(unique(problems), how.style)}`;
  return `${told}\n${shown}`;
}

function unique<T extends { readonly message: string }>(problems: readonly T[]): T[] {
  const seen = new Set<string>();
  return problems.filter(({ message }) => !seen.has(message) && seen.add(message));
}

function answerLines(answer: CheckedAnswer, report: SolveReport, how: ShowHow): string[] {
  const { result } = report;
  const wanted = wantedText(report);
  const text = (value: number): string => resultText(value, result, how.settings);
  const input = how.style.heading(capital(report.input));
  switch (answer.how) {
    case 'exact': {
      const residual = Math.max(...answer.checks.map((each) => Math.abs(each.residual)));
      return [
        `${input} ${answer.point.text} makes ${result.name} ${wanted}${report.isOther ? ` (${text(answer.point.wanted)})` : ''}.`,
        ...(answer.rounded === null
          ? []
          : [`Rounded to ${answer.rounded.text} it is ${text(answer.rounded.result)}.`]),
        checked(residual),
      ];
    }
    case 'between':
      return [
        `${input} from ${answer.from.text} to ${answer.to.text}: all along, ${result.name} is ${wanted}.`,
        checked(Math.max(...answer.checks.map((each) => Math.abs(each.residual)))),
      ];
    case 'step': {
      const { atMost, atLeast } = answer;
      return [
        `No figure of ${report.input} makes ${result.name} exactly ${wanted}: rounding makes it jump there.`,
        `At least that: ${place(atLeast, atMost)} gives ${text(atLeast.result)}. At most that: ${place(atMost, atLeast)} gives ${text(atMost.result)}.`,
        'Both were put into the book, and the book priced anew.',
      ];
    }
  }
}

/** Two sides of a jump may be the same figure but for the last of sixteen digits. */
function place(point: SolvedPoint, other: SolvedPoint): string {
  if (point.text !== other.text) return point.text;
  return `${point.at < other.at ? 'up to' : 'more than'} ${point.text}`;
}

function checked(residual: number): string {
  return `Put into the book and priced anew, it is off by ${residual === 0 ? 'nothing' : residual.toPrecision(1)}.`;
}

function none(
  { depends, result, input, wanted, from, to, least, greatest }: SolveReport,
  how: ShowHow,
): string[] {
  const shown = (value: number): string => resultText(value, result, how.settings);
  const text = (point: SolvedPoint): string =>
    `${shown(point.result)}${isOther ? ` against ${shown(point.wanted)}` : ''}`;
  const named = how.style.heading(capital(result.name));
  if (!depends) return [`${named} does not depend on ${input}, so no figure of it makes it ${wanted}.`];
  if (least === null || greatest === null)
    return [`${named} cannot be calculated for any figure of ${input} between ${from} and ${to}.`];
  if (least.result - least.wanted === greatest.result - greatest.wanted)
    return [`${named} stays ${text(least)}, whatever ${input} is between ${from} and ${to}.`];
  return [
    `No figure of ${input} between ${from} and ${to} makes ${result.name} ${wanted}.`,
    `It goes from ${text(least)} (at ${least.text}) to ${text(greatest)} (at ${greatest.text}). --from and --to look elsewhere.`,
  ];
}
