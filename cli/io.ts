/** Everything the program touches outside itself; tests put their own in. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Width of the terminal; undefined where the output is not a terminal. */
  readonly columns?: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly now: () => Date;
  /** Where relative paths start. */
  readonly folder: string;
  /** Shows how far a long run is, in place of what it showed before; blank text wipes it. Only on a terminal. */
  readonly progress?: (text: string) => void;
  /** Puts a question to the user and waits for the line that is typed. Only on a terminal. */
  readonly ask?: (question: string) => Promise<string>;
  /** Calls `stop` when the user interrupts (Ctrl-C), instead of ending; returns how to go back to ending. */
  readonly onInterrupt?: (stop: () => void) => () => void;
}

/** 0: done. 1: the book has errors, or a file could not be read or written. 2: the command line was wrong. */
export type ExitCode = 0 | 1 | 2;

/** What a command leaves behind for the caller. */
export interface Outcome {
  exitCode: ExitCode;
}

/** Something outside the book stands in the way: a missing folder, a file that cannot be written. */
export class Hindrance extends Error {
  readonly exitCode: ExitCode;
  constructor(message: string, exitCode: ExitCode = 1) {
    super(message);
    this.exitCode = exitCode;
  }
}
