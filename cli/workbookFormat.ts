import { Hindrance } from './io.ts';

const formats = ['xlsx', 'ods'] as const;

/** The format that was asked for, or else the one that the name of the file ends in. */
export function workbookFormat({
  as,
  out,
}: {
  readonly as?: string;
  readonly out?: string;
}): (typeof formats)[number] {
  if (as === undefined) return out?.toLowerCase().endsWith('.ods') ? 'ods' : 'xlsx';
  const found = formats.find((format) => format === as.toLowerCase());
  if (found === undefined)
    throw new Hindrance(`--as “${as}” is no format of a workbook.\n  Give xlsx or ods.`, 2);
  return found;
}
