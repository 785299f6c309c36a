/** The shipped templates, put in by the build and by the tests from the folder templates/ (see build/templates.mjs). */
declare module 'sennit:templates' {
  import type { SheetFile } from '../engine/index.ts';
  /** The sheets of every book. */
  export const sheets: readonly SheetFile[];
  /** The further sheets of a question about one piece. */
  export const pieceSheets: readonly SheetFile[];
  /** The shipped tables, such as weaves.csv, by file name. */
  export const tables: Readonly<Record<string, string>>;
  /** The demo books by name, each with its files. */
  export const books: Readonly<Record<'starter' | 'metric', Readonly<Record<string, string>>>>;
}
