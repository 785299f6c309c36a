import { sameKey } from '../../book/book.ts';
import { mendName } from '../../book/problems/nearest.ts';
import { type Problem, problem } from '../../book/problems/problem.ts';
import type { Plan } from '../../sheets/plan.ts';
import { hasBegun, isMonthOrDay, rowsOf, type Scenarios } from '../scenarios.ts';
import type { DatedChange } from '../whatIf.ts';
import type { ChangeFault } from './change.ts';
import { isFault } from './findInputs.ts';
import { parseChange } from './parseChange.ts';

export interface WhatIfQuestion {
  /** Scenarios of the book by name, side by side; `cord up + new wage` lays one upon the other. */
  readonly scenarios: readonly string[];
  /** Changes beyond those of the book, all together: upon each scenario, or one scenario of their own. */
  readonly changes: readonly string[];
  /** The month or day for which it is asked, such as 2027-03; all changes where empty. */
  readonly on: string;
}

/** One scenario that is asked for. */
export interface Asked {
  readonly name: string;
  readonly changes: readonly DatedChange[];
  /** Changes that begin later than the day for which it is asked. */
  readonly later: readonly DatedChange[];
}

/** Where problems of the question itself are told to be. */
export const commandLine = { file: 'command line' } as const;

/** Every scenario that is asked for, with its changes; all of the book's where none is named. */
export function questionOf(
  { scenarios: names, changes: texts, on }: WhatIfQuestion,
  scenarios: Scenarios,
  plan: Plan,
): { readonly asked: readonly Asked[]; readonly problems: Problem[] } {
  const problems: Problem[] = [];
  const complain = (found: string, { message, accepted, mend }: ChangeFault): void => {
    problems.push(problem('change-unclear', commandLine, message, { found, accepted, mend }));
  };
  const read = texts.map((text) => ({ text, change: readDated(text, scenarios, plan) }));
  const own = read.flatMap(({ change }): DatedChange[] => (isFault(change) ? [] : [change]));
  const torn = own.length < texts.length ? tornChange(texts, scenarios, plan) : undefined;
  if (torn !== undefined) complain(torn.found, torn.fault);
  else for (const { text, change } of read) if (isFault(change)) complain(text, change);
  const chosen = names.length > 0 || texts.length > 0 ? names : scenarios.names;
  const all = chosen.map((name) => {
    const parts = partsOf(name, scenarios);
    for (const part of parts) {
      if (known(part, scenarios)) continue;
      complain(name, {
        message: `There is no scenario “${part}” in this book.`,
        accepted: scenarios.names.join(', ') || 'none: the book has no scenarios.csv',
        mend: mendName(part, scenarios.names),
      });
    }
    const listed = rowsOf(scenarios, parts).flatMap(({ change, from }) =>
      change === undefined ? [] : [{ change, from }],
    );
    return { name: [name, ...texts].join(', '), changes: [...listed, ...own] };
  });
  if (all.length === 0 && texts.length > 0) all.push({ name: texts.join(', '), changes: own });
  if (all.length === 0 && problems.length === 0)
    complain('', {
      message: 'There is nothing to change: the book has no scenarios, and no change is given.',
      accepted: 'a change such as "cord +12 %", or a table scenarios.csv',
      mend: 'Give a change in quotation marks.',
    });
  const asked = all.map(
    ({ name, changes }): Asked => ({
      name,
      changes: changes.filter(({ from }) => hasBegun(from, on)),
      later: changes.filter(({ from }) => !hasBegun(from, on)),
    }),
  );
  return { asked, problems };
}

/** One change that its reader took apart into words, as it stood in no quotation marks, or in slanted ones. */
function tornChange(
  texts: readonly string[],
  scenarios: Scenarios,
  plan: Plan,
): { readonly found: string; readonly fault: ChangeFault } | undefined {
  const whole = texts
    .join(' ')
    .replace(/[“”„‟«»"]/g, '')
    .trim();
  if (texts.length < 2 || isFault(readDated(whole, scenarios, plan))) return undefined;
  const fault = {
    message: `“${whole}” came as ${texts.length} words, as it stands in no straight quotation marks.`,
    accepted: 'each change in quotation marks of its own',
    mend: `Write "${whole}".`,
  };
  return { found: whole, fault };
}

/** `wage = 27 from 2027-03`. */
function readDated(text: string, scenarios: Scenarios, plan: Plan): DatedChange | ChangeFault {
  const [, what = text, from = ''] = /^(.*\d\D*?),?\s+from\s+(\S+(?:\s+\d+)?)$/i.exec(text.trim()) ?? [];
  if (from !== '' && !isMonthOrDay(from))
    return {
      message: `“${from}” is no month or day.`,
      accepted: '2027-03 or 2027-03-15',
      mend: 'Write year, month and day with hyphens.',
    };
  const scenario = text.trim().replace(/^scenario\s+/i, '');
  if (known(scenario, scenarios))
    return {
      message: `“${scenario}” is a scenario of the book.`,
      accepted: 'a change such as cord +12 %',
      mend: `Write --scenario "${scenario}".`,
    };
  const change = parseChange(what, plan);
  return isFault(change) ? change : { change, from };
}

function known(name: string, scenarios: Scenarios): boolean {
  return scenarios.names.some((each) => sameKey(each) === sameKey(name));
}

/** `one + other`, with or without blanks; a name that holds a plus sign itself is one name. */
function partsOf(name: string, scenarios: Scenarios): string[] {
  if (known(name, scenarios)) return [name];
  return name.split(name.includes(' + ') ? ' + ' : '+').map((part) => part.trim());
}
