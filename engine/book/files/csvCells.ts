/** A cell and where it stands in the text, quotes included. */
export interface CsvCell {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly quoted: boolean;
}

export interface CsvRow {
  readonly cells: readonly CsvCell[];
  /** Where the row ends, before its line end. */
  readonly end: number;
  readonly lineEnd: string;
}

/** Text as it stands in a cell: in quotes where it must or where its neighbours are. */
export function csvCell(text: string, mark: string, quoted: boolean): string {
  const needs = quoted || text.includes(mark) || /["\r\n]|^\s|\s$/.test(text);
  return needs ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Whether a cell stands in quotes though nothing in it asks for them: its file has them so. */
export function isQuotedAnyway({ text, quoted }: CsvCell, mark: string): boolean {
  return quoted && !csvCell(text, mark, false).startsWith('"');
}

/**
 * Text for a file that others open: where a spreadsheet program would take it for a formula, an apostrophe before it
 * keeps it text. Formulas begin with = + - @ (half as wide or full), and with a tab, a line's end or a zero byte
 * before these (OWASP, CSV Injection; OWASP ASVS 5.0, 1.2.10). A blank or a quotation mark before them hides them
 * only from us: programs that cut blanks off, or take other separators, find the mark first. The book's own files
 * are never changed so: they are read again.
 */
export function plainText(text: string): string {
  return /^[\s\0"'\u200b\ufeff]*[=+\-@＝＋－＠]|^[\t\r\n\0]/.test(text) ? `'${text}` : text;
}

/** Rows and cells with their places; the reader of tables has made sure already that every quote is closed. */
export function csvRows(text: string, mark: string): CsvRow[] {
  const rows: CsvRow[] = [];
  let cells: CsvCell[] = [];
  let at = text.startsWith('\uFEFF') ? 1 : 0;
  while (at <= text.length) {
    const start = at;
    let cell = '';
    const quoted = text[at] === '"';
    if (quoted) {
      at += 1;
      while (at < text.length && !(text[at] === '"' && text[at + 1] !== '"')) {
        cell += text[at];
        at += text[at] === '"' ? 2 : 1;
      }
      at += 1;
    }
    while (at < text.length && text[at] !== mark && text[at] !== '\n' && text[at] !== '\r') {
      cell += text[at];
      at += 1;
    }
    at = Math.min(at, text.length);
    cells.push({ text: cell, start, end: at, quoted });
    if (text[at] === mark) {
      at += 1;
      continue;
    }
    const lineEnd = /^(?:\r\n|\n|\r)/.exec(text.slice(at, at + 2))?.[0] ?? '';
    rows.push({ cells, end: at, lineEnd });
    cells = [];
    at += lineEnd.length;
    if (lineEnd === '' || at >= text.length) break;
  }
  return rows;
}
