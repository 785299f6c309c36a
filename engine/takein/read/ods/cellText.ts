/**
 * The text of a cell from its paragraphs: blanks in a row count as one, and further ones, tabs and line breaks have
 * elements of their own (ODF 1.3 part 3, 6.1.2 to 6.1.5).
 */
export class CellText {
  whole = '';
  #paragraphs = 0;
  #depth = 0;
  /** Blanks at the start of a paragraph, and after another one, are only there for the eye. */
  #pending = '';
  #atStart = true;

  open(name: string, attributes: Readonly<Record<string, string>>): void {
    if (name === 'text:p' || name === 'text:h') {
      this.#depth += 1;
      if (this.#paragraphs > 0) this.whole += '\n';
      this.#paragraphs += 1;
      this.#atStart = true;
      this.#pending = '';
    } else if (this.#depth === 0) return;
    else if (name === 'text:s') {
      const count = Number(attributes['text:c'] ?? 1);
      this.#add(' '.repeat(Math.min(Math.max(Number.isInteger(count) ? count : 1, 1), 1000)));
    } else if (name === 'text:tab') this.#add('\t');
    else if (name === 'text:line-break') this.#add('\n');
  }

  text(part: string): void {
    if (this.#depth === 0) return;
    for (const word of part.match(/[ \t\r\n]+|[^ \t\r\n]+/g) ?? []) {
      if (/^[ \t\r\n]/.test(word)) this.#pending = this.#atStart ? '' : ' ';
      else this.#add(word);
    }
  }

  close(name: string): void {
    if (name !== 'text:p' && name !== 'text:h') return;
    this.#depth -= 1;
    this.#pending = '';
  }

  #add(text: string): void {
    this.whole += this.#pending + text;
    this.#pending = '';
    this.#atStart = false;
  }
}
