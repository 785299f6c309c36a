import { createHash } from 'node:crypto';

/** The digest of a text in hexadecimal digits; the engine takes it as a function, as it knows nothing of Node. */
export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}
