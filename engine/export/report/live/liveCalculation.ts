import { runtime } from '../../../calc/program/runtime.ts';
import { mustRise } from '../../../whatif/mustRise.ts';
import { followingColumns, heldColumns, type LiveModel, movedFigures } from './liveModel.ts';

/** One product in one channel with the sliders where they are. */
export interface LivePrice {
  /** The asking price that keeps the margin; null where fees and margin leave no room for any. */
  readonly asking: number | null;
  /** Margin, contribution and whether it is under its floor, with today's asking price on the ticket. */
  readonly margin: number;
  readonly contribution: number;
  readonly underFloor: boolean;
}

export interface LiveState {
  readonly prices: readonly LivePrice[];
  /** Profit of the month with today's asking prices; null where there are no expected sales. */
  readonly monthProfit: number | null;
}

/** A program as its source says it: see `Program.source`. */
export type ProgramMaker = (given: typeof runtime) => {
  run(figures: ArrayLike<number>, out: Float64Array): void;
};

const [heldWidth, followingWidth] = [heldColumns.length, followingColumns.length];
const heldAt = (column: (typeof heldColumns)[number]): number => heldColumns.indexOf(column);
const followingAt = (column: (typeof followingColumns)[number]): number => followingColumns.indexOf(column);

/**
 * Prices the book again with sliders moved: runs both programs, and chooses between their prices as `whatIfBook` does.
 *
 * @returns a function of the figure of each slider, as shown
 */
export function liveCalculation(
  model: LiveModel,
  makeHeld: ProgramMaker,
  makeFollowing: ProgramMaker,
): (at: readonly number[]) => LiveState {
  const [held, following] = [makeHeld(runtime), makeFollowing(runtime)];
  const heldOut = new Float64Array(model.rows.length * heldWidth + 1);
  const followingOut = new Float64Array(model.rows.length * followingWidth);
  return (at) => {
    const figures = movedFigures(model, at);
    held.run(figures, heldOut);
    following.run(figures, followingOut);
    const heldFigure = (row: number, column: (typeof heldColumns)[number]): number =>
      heldOut[row * heldWidth + heldAt(column)]!;
    const followingFigure = (row: number, column: (typeof followingColumns)[number]): number =>
      followingOut[row * followingWidth + followingAt(column)]!;
    return {
      prices: model.rows.map((today, row) => {
        const margin = heldFigure(row, 'margin');
        const stays = today.setByHand && !mustRise(followingFigure(row, 'asking'), today.asking);
        const hasRoom = (stays ? heldFigure(row, 'room_check') : followingFigure(row, 'room_check')) === 1;
        return {
          asking: !hasRoom ? null : stays ? today.asking : followingFigure(row, 'asking'),
          margin,
          contribution: heldFigure(row, 'contribution'),
          underFloor: heldFigure(row, 'floor_check') === 0,
        };
      }),
      monthProfit: model.monthProfit === null ? null : heldOut[model.rows.length * heldWidth]!,
    };
  };
}

/** What the programs give with every slider where it stands today. */
export function todaysState({ rows, monthProfit }: LiveModel): LiveState {
  return { prices: rows, monthProfit };
}
