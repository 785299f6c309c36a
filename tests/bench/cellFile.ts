import { closeSync, createReadStream, openSync, writeSync } from 'node:fs';
import { createInterface } from 'node:readline';

type Row = (string | number | boolean | null)[];

/**
 * Writes the cells of sheets row by row, since those of a large book are more than one text can hold.
 *
 * @returns how many are filled
 */
export function writeCells(file: string, sheets: Readonly<Record<string, readonly Row[]>>): number {
  const handle = openSync(file, 'w');
  let filled = 0;
  let lines: string[] = [];
  const flush = (): void => {
    if (lines.length > 0) writeSync(handle, `${lines.join('\n')}\n`);
    lines = [];
  };
  for (const [id, rows] of Object.entries(sheets)) {
    for (const row of rows) {
      filled += row.filter((cell) => cell !== null).length;
      lines.push(JSON.stringify([id, row]));
      if (lines.length === 1000) flush();
    }
  }
  flush();
  closeSync(handle);
  return filled;
}

export async function readCells(file: string): Promise<Record<string, Row[]>> {
  const sheets: Record<string, Row[]> = {};
  for await (const line of createInterface({ input: createReadStream(file) })) {
    const [id, row] = JSON.parse(line) as [string, Row];
    const rows = sheets[id];
    if (rows === undefined) sheets[id] = [row];
    else rows.push(row);
  }
  return sheets;
}
