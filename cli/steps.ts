import type { Source } from '../engine/index.ts';
import type { Io } from './io.ts';

/** Letters in a book of two hundred and fifty products: from here on a step may take longer than a second. */
const longBook = 60_000;
/** What has taken this long already is told about whatever its size. */
const noticedMs = 1000;

/**
 * Tells on the terminal which step a long run is at. The steps calculate without a pause, so that no timer could
 * run beside them: it is told before a step begins, where the book is large or a second has gone by.
 *
 * @param how the options of the command: nothing is told with --json or --plain
 * @param isLong whether the work is known to be long for another reason than the book
 */
export function stepsOf(
  io: Io,
  source: Source,
  how: { readonly json?: true; readonly plain?: true },
  isLong = false,
): (step: string) => void {
  const { progress } = io;
  if (progress === undefined || how.json || how.plain) return () => {};
  const began = io.now().getTime();
  const letters = [...source.book.values()].reduce((sum, text) => sum + text.length, 0);
  return (step) => {
    if (isLong || letters >= longBook || io.now().getTime() - began >= noticedMs) progress(`${step} …`);
  };
}

/** The same streams, but what was told of progress is wiped before anything else is printed, and by `wipe`. */
export function wiping(io: Io): { readonly io: Io; readonly wipe: () => void } {
  const { progress } = io;
  if (progress === undefined) return { io, wipe: () => {} };
  let isShown = false;
  const tell = (text: string): void => {
    isShown = text !== '';
    progress(text);
  };
  const wipe = (): void => {
    if (isShown) tell('');
  };
  const after =
    (print: (text: string) => void) =>
    (text: string): void => {
      wipe();
      print(text);
    };
  return { io: { ...io, progress: tell, out: after(io.out), err: after(io.err) }, wipe };
}
