import { Hindrance, type Io } from './io.ts';

/** The last second of the year 9999: later ones are no dates to a workbook. */
const lastMoment = 253_402_300_799;

/** The day of writing; SOURCE_DATE_EPOCH (seconds) stands in for it where a build must be repeatable. */
export function today(io: Io): string {
  const epoch = io.env.SOURCE_DATE_EPOCH ?? '';
  if (epoch !== '' && !(/^\d+$/.test(epoch) && Number(epoch) <= lastMoment)) {
    throw new Hindrance(
      `SOURCE_DATE_EPOCH “${epoch}” is no moment in seconds since 1970.\n  Give one such as 1700000000, or none.`,
      2,
    );
  }
  const moment = epoch === '' ? io.now() : new Date(Number(epoch) * 1000);
  return moment.toISOString().slice(0, 10);
}
