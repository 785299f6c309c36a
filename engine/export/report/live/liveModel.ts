import { shiftDecimal } from '../../../book/measures/numberText.ts';
import type { Settings } from '../../../book/settings.ts';
import { altered } from '../../../whatif/words/change.ts';

/** A figure that a reader of the page may move. All figures as shown: per cents as 24, not 0.24. */
export interface Slider {
  readonly id: string;
  readonly label: string;
  /** As it is called in a sentence: `cord`. */
  readonly name: string;
  /** Stands after the figure: `USD per hour`, `%`. */
  readonly unit: string;
  readonly note: string;
  /** Where it stands today; 0 for one that moves by a share. */
  readonly today: number;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** `share`: the cells go up by so many per cent. `percent`: they become it, as a ratio. `amount`: they become it. */
  readonly how: 'share' | 'percent' | 'amount';
  /** Places of its cells in `LiveModel.figures`. */
  readonly cells: readonly number[];
}

/** One product in one channel, as it is today. */
export interface LiveRow {
  readonly product: string;
  readonly channel: string;
  readonly asking: number;
  readonly margin: number;
  readonly contribution: number;
  readonly underFloor: boolean;
  readonly setByHand: boolean;
}

/** What the page needs to calculate by itself, besides its two programs. */
export interface LiveModel {
  readonly settings: Settings;
  readonly sliders: readonly Slider[];
  /** The varied cells as the book has them, in the order that both programs take them. */
  readonly figures: readonly number[];
  readonly rows: readonly LiveRow[];
  /** Profit of the month today, where the book has an expected sales mix. */
  readonly monthProfit: number | null;
}

/** Results that the program of held prices gives for each row, in this order; the month's profit stands last. */
export const heldColumns = ['margin', 'contribution', 'floor_check', 'room_check'] as const;
/** Results that the program of following prices gives for each row, in this order. */
export const followingColumns = ['asking', 'room_check'] as const;

/**
 * The varied cells with every slider where it was put.
 *
 * @param at figure of each slider, as shown; one that stands where it does today changes nothing
 */
export function movedFigures({ sliders, figures }: LiveModel, at: readonly number[]): Float64Array {
  const moved = Float64Array.from(figures);
  sliders.forEach(({ today, how, cells }, k) => {
    const figure = at[k] ?? today;
    if (figure === today) return;
    const ratio = shiftDecimal(figure, -2);
    for (const cell of cells) {
      const after =
        how === 'share'
          ? altered(moved[cell]!, { how: 'percent', by: ratio })
          : altered(moved[cell]!, { how: 'value', value: how === 'percent' ? ratio : figure });
      moved[cell] = Number(after);
    }
  });
  return moved;
}
