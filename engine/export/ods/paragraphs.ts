import { element, escapedText } from '../xml.ts';

/**
 * Text as paragraphs, one a line. OpenDocument reads spaces as XML does, several as one and none at the edges
 * (ODF 1.3 part 3, 6.1.2): those are written as elements.
 */
export function paragraphs(text: string, wrap: (inside: string) => string = (inside) => inside): string {
  return text
    .split(/\r\n|\r|\n/)
    .map((line) => element('text:p', {}, line === '' ? '' : wrap(lineContent(line))))
    .join('');
}

/** One line of text, its spaces and tabs kept. A space beside a tab stands at an edge too. */
export function lineContent(line: string): string {
  return line.split('\t').map(stretch).join(element('text:tab'));
}

function stretch(text: string): string {
  return escapedText(text).replace(/^ +| +$| {2,}/g, (spaces, at: number, whole: string) => {
    const atEdge = at === 0 || at + spaces.length === whole.length;
    const named = atEdge ? spaces.length : spaces.length - 1;
    return `${atEdge ? '' : ' '}${element('text:s', { 'text:c': named === 1 ? undefined : named })}`;
  });
}
