import type { Book } from '../book/book.ts';
import type { SheetDefinition } from './definition.ts';

/**
 * Leaves out sheets whose table no command has made or has no rows (`only_with_rows`), sheets that are there only
 * with one of those (`only_with`), and columns and entries of lists that say so.
 */
export function presentSheets(definitions: readonly SheetDefinition[], book: Book): SheetDefinition[] {
  const byName = new Map(definitions.map((definition) => [definition.sheet, definition]));
  const isPresent = (name: string, passed: readonly string[] = []): boolean => {
    const definition = byName.get(name);
    // A name that no sheet has is told where names are checked, and circles end where they began.
    if (definition === undefined || passed.includes(name)) return true;
    const { rows, only_with, only_with_rows } = definition;
    if ('made' in rows && !book.tables.has(rows.made)) return false;
    if (only_with_rows === true && 'table' in rows && (book.tables.get(rows.table)?.rowCount ?? 0) === 0)
      return false;
    return only_with === undefined || isPresent(only_with, [...passed, name]);
  };
  const isKept = ({ only_with }: { readonly only_with?: string | undefined }): boolean =>
    only_with === undefined || isPresent(only_with);
  return definitions
    .filter(({ sheet }) => isPresent(sheet))
    .map((definition) => ({
      ...definition,
      columns: definition.columns.filter(isKept),
      // Own entries only: every object has properties that nobody wrote.
      ...('list' in definition.rows
        ? { rows: { list: definition.rows.list.filter((entry) => isKept({ ...entry })) } }
        : {}),
    }));
}
