import type { LiveState } from '../engine/export/report/live/liveCalculation.ts';
import type { LiveModel } from '../engine/export/report/live/liveModel.ts';
import { liveCells } from '../engine/export/report/live/liveWords.ts';

/** The cells of the table that follow the sliders; only those that change are written. */
export class LiveTable {
  readonly #table: HTMLElement;
  readonly #model: LiveModel;
  readonly #cells: readonly (readonly HTMLElement[])[];

  constructor(table: HTMLElement, model: LiveModel) {
    this.#table = table;
    this.#model = model;
    // The first cell of a row is what is asked today, which stays.
    this.#cells = [...table.querySelectorAll('tr[data-live]')].map((row) => [
      ...[...row.querySelectorAll('td')].slice(1),
    ]);
  }

  show(state: LiveState): void {
    state.prices.forEach((price, row) => {
      const today = this.#model.rows[row];
      if (today === undefined) return;
      liveCells(price, today, this.#model).forEach((text, at) => {
        const cell = this.#cells[row]?.[at];
        if (cell !== undefined && cell.textContent !== text) cell.textContent = text;
      });
      this.#cells[row]?.[0]?.classList.toggle('moved', price.asking !== today.asking);
      this.#cells[row]?.[3]?.classList.toggle('bad', price.underFloor);
    });
  }

  get heightPx(): number {
    return this.#table.offsetHeight;
  }
}
