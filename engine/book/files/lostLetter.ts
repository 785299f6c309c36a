/** Stands where a reader of text met bytes that are no letter: the file has another character set than UTF-8. */
const lost = '\uFFFD';

/** What to do about a file that is in another character set. */
export const lostLetter = {
  message: 'From here on the file is not UTF-8 text.',
  accepted: 'text in the character set UTF-8',
  mend: 'Save the file again with the character set UTF-8, and look whether its letters are right.',
} as const;

/**
 * Looks for the mark of a lost letter.
 *
 * @returns the line that it stands on (from 1), or undefined where all is text
 */
export function lineOfLostLetter(source: string): number | undefined {
  const at = source.indexOf(lost);
  return at < 0 ? undefined : source.slice(0, at).split(/\r\n|\r|\n/).length;
}
