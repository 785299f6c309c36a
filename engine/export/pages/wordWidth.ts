import { roomOnPage, widthsOnPage } from './pageSetup.ts';
import { widestText } from './widths.ts';

/** Words on paper are easy to read down to this scale. */
const easyScale = 0.75;
/** Words in a narrower column stand one below the other. */
const narrowestText = 28;
const step = 4;

/**
 * How wide a column of words may grow before they wrap. Where long words make a sheet wider than is easy to read
 * on a page, they wrap earlier; not where its figures alone take more than one page.
 *
 * @param totalWidth width of the whole sheet when words wrap at a width
 */
export function wordWidth(totalWidth: (widest: number) => number): number {
  for (let widest = widestText; widest >= narrowestText; widest -= step) {
    if (totalWidth(widest) <= widthsOnPage / easyScale) return widest;
  }
  return totalWidth(narrowestText) <= roomOnPage ? narrowestText : widestText;
}
