/** Pieces of XML that are written once each under names that count up: `ce1`, `ce2`. */
export class NamedXml {
  readonly #prefix: string;
  readonly #names = new Map<string, string>();
  readonly #written: string[] = [];

  constructor(prefix: string) {
    this.#prefix = prefix;
  }

  /**
   * The name of a piece.
   *
   * @param key what makes it the same as another
   * @param write writes it under its name, when it is met for the first time
   */
  name(key: string, write: (name: string) => string): string {
    const known = this.#names.get(key);
    if (known !== undefined) return known;
    const name = `${this.#prefix}${this.#names.size + 1}`;
    this.#names.set(key, name);
    this.#written.push(write(name));
    return name;
  }

  toString(): string {
    return this.#written.join('');
  }
}
