import { liveCalculation, type ProgramMaker } from '../engine/export/report/live/liveCalculation.ts';
import type { LiveModel } from '../engine/export/report/live/liveModel.ts';
import { liveSummary, movedWords } from '../engine/export/report/live/liveWords.ts';
import { LiveTable } from './liveTable.ts';
import { sliderControls } from './sliderControls.ts';

/** So long after the last move the result is read out: a moving slider would never stop talking. */
const silenceMs = 400;
/** What each move of a slider took, for whoever measures it. */
const measureName = 'sennit-move';

/** Lets the sliders of a page move its table. Called once, by the page itself. */
export function start(model: LiveModel, makeHeld: ProgramMaker, makeFollowing: ProgramMaker): void {
  const calculate = liveCalculation(model, makeHeld, makeFollowing);
  const table = new LiveTable(byId('live-table'), model);
  const moved = byId('live-moved');
  const summary = byId('live-summary');
  const told = byId('live-told');
  let timer: ReturnType<typeof setTimeout> | undefined;
  const move = (at: readonly number[]): void => {
    const began = performance.now();
    const state = calculate(at);
    table.show(state);
    const words = liveSummary(state, model);
    moved.textContent = movedWords(at, model);
    summary.textContent = words;
    // Asking for the size makes the browser lay the page out now, so that this too is in the time.
    void table.heightPx;
    performance.clearMeasures(measureName);
    performance.measure(measureName, { start: began, end: performance.now() });
    clearTimeout(timer);
    timer = setTimeout(() => {
      told.textContent = words;
    }, silenceMs);
  };
  sliderControls(model, move);
  for (const controls of document.querySelectorAll<HTMLElement>('.controls')) controls.hidden = false;
}

function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`The page has no ${id}`);
  return element;
}
