import type { CheckedAnswer, NewFinding, SolvedPoint, SolveReport } from '../../engine/index.ts';
import { capital, fineText, pricesText, resultText } from './resultText.ts';
import type { ShowHow } from './showHow.ts';
import { wrap } from './table.ts';

const mostFindings = 3;

/** The answer first; every answer where there are several, and how far the result comes where there is none. */
export function showSolve(report: SolveReport, how: ShowHow): string {
  const { answers, result, input, prices } = report;
  const [first, second] = answers;
  const lines = [
    ...(first === undefined ? none(report, how) : []),
    ...(second === undefined
      ? []
      : [
          `${answers.length} figures of ${input} between ${report.from} and ${report.to} make ${result.name} ${wantedText(report)}.`,
        ]),
    ...answers.flatMap((each) => answerLines(each, report, how)),
    todayText(report, how),
    pricesText(prices),
    ...findingLines(answers.flatMap(({ checks }) => checks.flatMap((each) => each.findings))),
  ];
  return `${lines.flatMap((line) => wrap(line, how.width)).join('\n')}\n`;
}

function wantedText({ isOther, wanted }: SolveReport): string {
  return isOther ? `the same as ${wanted}` : wanted;
}

function todayText({ today, input, result, resultToday }: SolveReport, how: ShowHow): string {
  const text = resultText(resultToday, result, how.settings);
  return today === ''
    ? `Today ${result.name} is ${text}.`
    : `Today ${input} is ${today} and ${result.name} ${text}.`;
}

/** What the book says with the answer in it, and does not say today. */
function findingLines(findings: readonly NewFinding[]): string[] {
  // Two sides of a step say the same of figures that hardly differ.
  const bare = (message: string): string => message.replace(/\d+/g, '');
  const fresh = [...new Map(findings.map((each) => [bare(each.message), each])).values()];
  const shown = fresh.slice(0, mostFindings).map(({ message, rows }) => {
    const more = rows === 1 ? '' : ` ${rows - 1} more of that sort.`;
    return `The book then says: ${message}${more}`;
  });
  const others = fresh.length - shown.length;
  return others > 0
    ? [...shown, `And ${others} ${others === 1 ? 'thing' : 'things'} more to look at.`]
    : shown;
}

function answerLines(answer: CheckedAnswer, report: SolveReport, how: ShowHow): string[] {
  const { result } = report;
  const text = (value: number): string => resultText(value, result, how.settings);
  const input = how.style.heading(report.input);
  const wanted = wantedText(report);
  switch (answer.how) {
    case 'exact': {
      const { point, rounded } = answer;
      return [
        `With ${input} ${point.text}, ${result.name} is ${wanted}${report.isOther ? `: ${text(point.wanted)}` : ''}.`,
        ...(rounded === null ? [] : [`Rounded to ${rounded.text} it is ${text(rounded.result)}.`]),
        checked(answer),
      ];
    }
    case 'between':
      return [
        `With ${input} from ${answer.from.text} to ${answer.to.text}, ${result.name} is ${wanted} all along.`,
        checked(answer),
      ];
    case 'step': {
      const sides = [answer.atMost, answer.atLeast].sort((one, other) => one.at - other.at);
      return [stepText(sides, report, how), 'Both sides were put into the book, and the book priced anew.'];
    }
  }
}

/** Two sides of a jump may be the same figure but for the last of sixteen digits. */
function stepText(
  [low, high]: readonly SolvedPoint[],
  report: SolveReport,
  { settings, style }: ShowHow,
): string {
  if (low === undefined || high === undefined) return '';
  const { result, isOther } = report;
  const input = style.heading(report.input);
  const wanted = wantedText(report);
  // Where the sheet shows both sides alike, the jump is one of coins in a pack, and of no weight.
  const alike = resultText(low.result, result, settings) === resultText(high.result, result, settings);
  const shown = alike ? fineText : resultText;
  const text = ({ result: value, wanted: goal }: SolvedPoint): string =>
    `${shown(value, result, settings)}${isOther ? ` against ${shown(goal, result, settings)}` : ''}`;
  if (low.text !== high.text)
    return `Rounding makes ${result.name} jump over ${wanted}: with ${input} ${low.text} it is ${text(low)}, with ${high.text} ${text(high)}.`;
  return alike
    ? `With ${input} ${low.text}, ${result.name} is ${wanted} as near as rounding comes: ${text(low)} up to there, ${text(high)} above.`
    : `Rounding makes ${result.name} jump over ${wanted}: with ${input} up to ${low.text} it is ${text(low)}, above that ${text(high)}.`;
}

/** What is left of rounding in doubles is nothing to a maker; JSON has it. */
function checked({ checks }: CheckedAnswer): string {
  const off = Math.max(...checks.map(({ residual }) => Math.abs(residual)));
  const size = Math.max(1, ...checks.map(({ wanted }) => Math.abs(wanted)));
  return off <= 1e-9 * size
    ? 'Put into the book and priced anew, it holds.'
    : `Put into the book and priced anew, it is off by ${off.toPrecision(1)}.`;
}

function none(report: SolveReport, how: ShowHow): string[] {
  const { depends, result, input, isOther, from, to, least, greatest } = report;
  const shown = (value: number): string => resultText(value, result, how.settings);
  const text = (point: SolvedPoint): string =>
    `${shown(point.result)}${isOther ? ` against ${shown(point.wanted)}` : ''}`;
  const named = how.style.heading(capital(result.name));
  const wanted = wantedText(report);
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
