import type { LiveModel, Slider } from '../engine/export/report/live/liveModel.ts';
import { sliderBounds, sliderWords } from '../engine/export/report/live/liveWords.ts';

/** A slider, its number field, and the line that says what would be right. */
interface Control {
  readonly slider: Slider;
  readonly range: HTMLInputElement;
  readonly number: HTMLInputElement;
  readonly wrong: HTMLElement;
}

/**
 * Keeps each slider and its number field alike, and the button that puts all back.
 *
 * @param move called with the figure of every slider whenever one has changed
 */
export function sliderControls(model: LiveModel, move: (at: readonly number[]) => void): void {
  const at = model.sliders.map(({ today }) => today);
  const controls = model.sliders.map(
    (slider): Control => ({
      slider,
      range: input(`${slider.id}-range`),
      number: input(`${slider.id}-number`),
      wrong: element(`${slider.id}-wrong`),
    }),
  );
  const accept = (control: Control, figure: number): void => {
    at[controls.indexOf(control)] = figure;
    control.range.setAttribute('aria-valuetext', sliderWords(control.slider, figure, model));
    complain(control, '');
  };
  for (const control of controls) {
    const { slider, range, number } = control;
    accept(control, slider.today);
    // A browser that reloads a page puts back what was typed, but not the table.
    range.value = String(slider.today);
    number.value = String(slider.today);
    range.addEventListener('input', () => {
      number.value = range.value;
      accept(control, range.valueAsNumber);
      move(at);
    });
    number.addEventListener('input', () => {
      const figure = number.valueAsNumber;
      if (!(figure >= slider.min && figure <= slider.max)) {
        complain(control, sliderBounds(slider, model));
        return;
      }
      range.value = number.value;
      accept(control, figure);
      move(at);
    });
  }
  element('reset').addEventListener('click', () => {
    for (const control of controls) {
      const today = String(control.slider.today);
      control.range.value = today;
      control.number.value = today;
      accept(control, control.slider.today);
    }
    move(at);
  });
}

function complain({ number, wrong }: Control, words: string): void {
  number.setAttribute('aria-invalid', String(words !== ''));
  wrong.hidden = words === '';
  wrong.textContent = words;
}

function element(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`The page has no ${id}`);
  return found;
}

function input(id: string): HTMLInputElement {
  return element(id) as HTMLInputElement;
}
