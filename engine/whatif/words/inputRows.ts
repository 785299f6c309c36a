import { sameKey } from '../../book/book.ts';
import { mendName, someNames } from '../../book/problems/nearest.ts';
import type { Plan, PlanSheet } from '../../sheets/plan.ts';
import type { ChangeFault } from './change.ts';
import { materialGroups } from './inputWords.ts';

export function sheetOf(plan: Plan, id: string): PlanSheet | undefined {
  return plan.sheets.find((each) => each.id === id);
}

/** First keys of a sheet, row by row. */
export function keysOf(plan: Plan, id: string): string[] {
  const sheet = sheetOf(plan, id);
  const key = sheet?.columns.find((each) => each.id === sheet.key[0]);
  return (key?.inputs ?? []).map(String);
}

/** Rows whose key, or one of whose keys, is this name. */
export function exactRows(sheet: PlanSheet, name: string): number[] {
  const wanted = sameKey(name);
  const keys = sheet.columns.filter((column) => sheet.key.includes(column.id));
  return Array.from({ length: sheet.rowCount }, (_, row) => row).filter((row) =>
    keys.some((column) => sameKey(String(column.inputs?.[row] ?? '')) === wanted),
  );
}

/** `fob short at stall`, `key ring in float fob`: rows known by two keys, in either order. */
export function rowsOfBoth(sheet: PlanSheet, group: string): number[] {
  const [first, second, third] = sheet.key.map((id) => sheet.columns.find((each) => each.id === id)?.inputs);
  if (first === undefined || second === undefined || third !== undefined) return [];
  const known = (value: unknown): string => sameKey(String(value ?? ''));
  for (const between of group.matchAll(/ (?:at|in|of|for|on) /gi)) {
    const left = sameKey(group.slice(0, between.index));
    const right = sameKey(group.slice(between.index + between[0].length));
    const rows = Array.from({ length: sheet.rowCount }, (_, row) => row).filter((row) => {
      const [one, other] = [known(first[row]), known(second[row])];
      return (one === left && other === right) || (one === right && other === left);
    });
    if (rows.length > 0) return rows;
  }
  return [];
}

/**
 * Rows of a sheet that a word means: the kind of material, then a key, then any word that stands in the row
 * (colour, supplier, family, weave, step), then a name that holds the word.
 */
export function rowsOfGroup(plan: Plan, id: string, group: string): number[] {
  const sheet = sheetOf(plan, id);
  if (sheet === undefined) return [];
  const all = Array.from({ length: sheet.rowCount }, (_, row) => row);
  const lower = group.toLowerCase().trim();
  const kind = id === 'materials' && Object.hasOwn(materialGroups, lower) ? materialGroups[lower] : undefined;
  if (kind !== undefined) return all.filter((row) => kind === 'all' || kindOf(sheet, row) === kind);
  const exact = exactRows(sheet, group);
  if (exact.length > 0) return exact;
  const both = rowsOfBoth(sheet, group);
  if (both.length > 0) return both;
  const texts = sheet.columns.filter(
    (column) => column.inputs !== undefined && ['text', 'ref', 'choice'].includes(column.kind),
  );
  const names = sheet.columns.filter(
    (column) => sheet.key.includes(column.id) || ['name', 'supplier'].includes(column.id),
  );
  for (const form of [lower, lower.replace(/s$/, ''), lower.replace(/es$/, '')]) {
    if (form.length < 2) continue;
    const same = all.filter((row) =>
      texts.some((column) => String(column.inputs?.[row] ?? '').toLowerCase() === form),
    );
    if (same.length > 0) return same;
    // A whole word, in the singular or plural: bar is neither in a barrel lock nor in a crowbar.
    const word = form.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
    const within = new RegExp(`(?<!\\p{L})${word}(?:e?s)?(?!\\p{L})`, 'iu');
    const holding = all.filter((row) =>
      names.some((column) => within.test(String(column.inputs?.[row] ?? ''))),
    );
    if (holding.length > 0) return holding;
  }
  return [];
}

function kindOf(materials: PlanSheet, row: number): 'cord' | 'webbing' | 'piece' {
  const cell = (id: string): unknown =>
    materials.columns.find((each) => each.id === id)?.inputs?.[row] ?? null;
  if (cell('sold_by') === 'piece') return 'piece';
  return cell('diameter') === null ? 'webbing' : 'cord';
}

/** Rows of another sheet whose first key is one of these names. */
export function rowsOfNames(plan: Plan, id: string, names: ReadonlySet<string>): number[] {
  return keysOf(plan, id).flatMap((key, row) => (names.has(sameKey(key)) ? [row] : []));
}

/** Rows of a sheet that the words in brackets pick: `slate cord`, `colour=slate`, `online, listing`. */
export function pickRows(sheet: PlanSheet, within: string, rows: readonly number[]): number[] | ChangeFault {
  // Commas and equals signs inside quotation marks belong to the name.
  const tests = (within.match(/(?:"[^"]*"|[^,"])+/g) ?? []).map((part) => part.trim());
  let kept = [...rows];
  for (const [at, test] of tests.entries()) {
    const [left = '', right] = (test.match(/(?:"[^"]*"|[^="])+/g) ?? []).map((part) =>
      part.trim().replace(/^"(.*)"$/, '$1'),
    );
    const id = right === undefined ? sheet.key[at] : left.toLowerCase();
    const wanted = sameKey(right ?? left);
    const column = sheet.columns.find((each) => each.id === id && each.inputs !== undefined);
    if (column === undefined) {
      const names = sheet.columns.filter((each) => each.inputs !== undefined).map((each) => each.id);
      return {
        message: `Rows of ${sheet.id} cannot be picked by “${test}”.`,
        accepted: `${sheet.id}[${sheet.key.join(', ')}] or ${sheet.id}[column=word] with one of ${names.join(', ')}`,
        mend: mendName(left, names),
      };
    }
    const before = kept;
    kept = kept.filter((row) => sameKey(String(column.inputs?.[row] ?? '')) === wanted);
    if (kept.length === 0) {
      const there = [...new Set(before.map((row) => String(column.inputs?.[row] ?? '')))].filter(
        (each) => each !== '',
      );
      return {
        message: `No row of ${sheet.id} has the ${column.heading.toLowerCase()} “${right ?? left}”.`,
        accepted: someNames(there, 12),
        mend: mendName(right ?? left, there),
      };
    }
  }
  return kept;
}
