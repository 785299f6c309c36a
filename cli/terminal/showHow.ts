import type { Settings } from '../../engine/index.ts';
import { commandName } from '../commandName.ts';
import type { Io } from '../io.ts';
import type { Style } from './style.ts';

/** How something is shown in this terminal. */
export interface ShowHow {
  readonly width: number;
  readonly style: Style;
  readonly settings: Settings;
  /** The book as the user named it and the program as it was called, for what to do next. */
  readonly book: string;
  readonly command: string;
}

const usualWidth = 80;

export function showHow(io: Io, style: Style, settings: Settings, book: string): ShowHow {
  return { width: io.columns ?? usualWidth, style, settings, book, command: commandName(io) };
}
