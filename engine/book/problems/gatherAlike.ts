import { parseMeasure } from '../measures/measure.ts';
import { type DecimalMark, otherMark, parseNumber } from '../measures/numberText.ts';
import { parseWeight, parseWeightOfLength } from '../measures/weight.ts';
import { type Place, type Problem, problem } from './problem.ts';

/** As many slips of the decimal mark are one slip: that of the book's setting. */
const enoughForSetting = 5;
/** A fault that fills a column is told this many times, and then counted. */
const enoughInColumn = 5;

/** One slip should give one problem: figures that all have the other decimal mark, and columns full of the same fault. */
export function gatherAlike(
  problems: readonly Problem[],
  decimal: DecimalMark,
  settingPlace: Place,
): Problem[] {
  return gatherColumns(gatherMarks(problems, decimal, settingPlace));
}

function gatherMarks(problems: readonly Problem[], decimal: DecimalMark, settingPlace: Place): Problem[] {
  const other = otherMark(decimal);
  const slips = problems.filter(
    (each) =>
      (each.code === 'not-a-number' || each.code === 'not-a-measure') &&
      /\d/.test(each.found) &&
      (parseMeasure(each.found, other) !== undefined ||
        parseWeight(each.found, other) !== undefined ||
        parseWeightOfLength(each.found, other) !== undefined ||
        parseNumber(each.found.replace(/\s*%$/, ''), other) !== undefined),
  );
  const [first] = slips;
  if (slips.length < enoughForSetting || first === undefined) return [...problems];
  const files = [...new Set(slips.map((each) => each.where.file))];
  const message = `${slips.length} figures are written with a decimal ${other}, such as “${first.found}”, and the book says decimal: ${decimal}.`;
  const gathered = problem('not-a-number', { ...settingPlace, column: 'decimal' }, message, {
    found: files
      .map((file) => `${file} (${slips.filter((each) => each.where.file === file).length})`)
      .join(', '),
    accepted: `one way of writing decimals in the whole book`,
    mend: `Write decimal: ${other} in book.yaml, or write those figures with a decimal ${decimal}.`,
  });
  const told = new Set(slips);
  return [gathered, ...problems.filter((each) => !told.has(each))];
}

function gatherColumns(problems: readonly Problem[]): Problem[] {
  const groups = new Map<string, Problem[]>();
  for (const each of problems) {
    const id = [each.code, each.where.file, each.where.column].join('|');
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [each]);
    else group.push(each);
  }
  const dropped = new Set<Problem>();
  const counted = new Map<Problem, Problem>();
  for (const group of groups.values()) {
    const rest = group.slice(enoughInColumn);
    const [next] = rest;
    if (rest.length < 2 || next === undefined) continue;
    for (const each of rest) dropped.add(each);
    const { accepted, mend, severity, where, code } = next;
    const rows = rest.map((each) => each.where.row).filter((row) => row !== undefined);
    const shown = `${rows.slice(0, 12).join(', ')}${rows.length > 12 ? ', …' : ''}`;
    counted.set(
      next,
      problem(code, where, `${rest.length} more rows have the same fault: ${shown}.`, {
        severity,
        accepted,
        mend,
      }),
    );
  }
  return problems.flatMap((each) => counted.get(each) ?? (dropped.has(each) ? [] : [each]));
}
