import { type Problem, type ProblemCode, problem } from '../engine/index.ts';

/** A problem of what was asked, as opposed to one of the book. `field` is the property it stands in. */
export function asked(
  code: ProblemCode,
  field: string,
  found: unknown,
  { message, accepted, mend }: { readonly message: string; readonly accepted: string; readonly mend: string },
): Problem {
  return problem(code, { file: 'question', column: field }, message, {
    found: String(found),
    accepted,
    mend,
  });
}

/** What is wrong with a day that must be one of the calendar, as ISO 8601 writes it; nothing where it is one. */
export function dayProblems(field: string, text: string): readonly Problem[] {
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? new Date(`${text}T00:00:00Z`) : undefined;
  // The calendar turns 30 February into 2 March.
  if (day !== undefined && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text)) return [];
  return [
    asked('date-unclear', field, text, {
      message: `“${text}” is no day of the calendar.`,
      accepted: 'year, month and day, such as 2026-12-01',
      mend: 'Write the day so.',
    }),
  ];
}
