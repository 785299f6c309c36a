/** Control characters are no text in HTML or SVG; a tab and a line's end are. */
const control = /(?![\t\n])\p{Cc}/gu;

/**
 * Text as it may stand in HTML and SVG, between tags and inside quoted attributes: whatever a maker wrote
 * stays text. Control characters become the mark of a lost letter.
 */
export function escaped(text: string): string {
  return text.replace(control, '\uFFFD').replace(/[&<>"']/g, (each) => `&#${each.charCodeAt(0)};`);
}
