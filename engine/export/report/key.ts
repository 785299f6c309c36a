/** What a mark or a ground in a picture stands for: its drawing in a box of 18 x 12, and its words. */
const marks = {
  floor: ['<rect x="7.5" width="3" height="12" fill="var(--ink)"/>', 'floor'],
  target: [
    '<rect x="0" y="3" width="15" height="6" fill="var(--tint)"/><rect x="14" width="3" height="12" fill="var(--accent)"/>',
    'target',
  ],
  asking: ['<circle cx="9" cy="6" r="4" fill="var(--accent)"/>', 'asks'],
  byHand: ['<path d="M9 0L15 6L9 12L3 6Z" fill="var(--slate)"/>', 'asks, set by hand'],
  underFloor: ['<path d="M9 0L15 11H3Z" fill="var(--bad)"/>', 'under its floor'],
  cords: ['<rect y="1" width="18" height="10" fill="var(--accent)"/>', 'cord and webbing'],
  parts: ['<rect y="1" width="18" height="10" fill="var(--tint)"/>', 'parts'],
  labour: ['<rect y="1" width="18" height="10" fill="var(--slate)"/>', 'labour'],
  overhead: ['<rect y="1" width="18" height="10" fill="var(--sand)"/>', 'overhead'],
  dot: ['<circle cx="9" cy="6" r="4.5" fill="var(--accent)" opacity=".45"/>', 'one product'],
  down: ['<rect y="1" width="18" height="10" fill="var(--tint)"/>', 'input down'],
  up: ['<rect y="1" width="18" height="10" fill="var(--accent)"/>', 'input up'],
} as const;

export type Mark = keyof typeof marks;

/** How the marks of the pictures below are read. */
export function key(names: readonly Mark[]): string {
  const items = names.map((name) => item(marks[name][0], marks[name][1]));
  return keyList(items);
}

export function keyList(items: readonly string[]): string {
  return `<ul class="key" aria-label="Marks">${items.join('')}</ul>`;
}

/** @param words HTML */
export function item(drawing: string, words: string): string {
  return `<li><svg viewBox="0 0 18 12" aria-hidden="true">${drawing}</svg>${words}</li>`;
}
