/**
 * A message about the book that is made of a question for one piece, in the words of whoever asked: options of a command
 * line, or fields.
 *
 * @param words what a column of that book is called in the question
 */
export function inQuestionWords(text: string, words: Readonly<Record<string, string>>): string {
  // Plain words, such as weave, are the same in both.
  return Object.entries(words)
    .filter(([column]) => column.includes('_'))
    .reduce((told, [column, word]) => told.replaceAll(column, word), text)
    .replace(/\bProduct piece\b/, 'This piece');
}
