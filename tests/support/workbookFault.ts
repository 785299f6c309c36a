import { readSavedWorkbook } from '../../engine/takein/read/readSavedWorkbook.ts';
import { UnreadableWorkbook } from '../../engine/takein/read/savedWorkbook.ts';

/** Why these bytes are not read as a workbook; `read` where they are. */
export function workbookFault(bytes: Uint8Array): string {
  try {
    readSavedWorkbook(bytes);
    return 'read';
  } catch (error) {
    if (error instanceof UnreadableWorkbook) return error.fault;
    throw error;
  }
}
