/** JSON as every command prints it: two spaces, one line feed at the end, keys in a fixed order. */
export function json(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
