import { accent, bad, cssColour, good, ink, line, paper, quiet, watch } from './palette.ts';

/** The palette by name for every page, on white paper and on a dark screen; paper stays white in print. */
export const pageColours: string = `:root { color-scheme: light dark; --ink: ${cssColour(ink)}; --paper: ${cssColour(paper)}; --quiet: ${cssColour(quiet)}; --line: ${cssColour(line)}; --accent: ${cssColour(accent)}; --good: ${cssColour(good)}; --watch: ${cssColour(watch)}; --bad: ${cssColour(bad)}; --soft: #5A6670; }
@media screen and (prefers-color-scheme: dark) {
  :root { --ink: #E4E6E3; --paper: #14191D; --quiet: #1E252A; --line: #3B454C; --accent: #93C0C4; --good: #8CC3A3; --watch: #DDB066; --bad: #E39A9C; --soft: #A9B3B8; }
}`;
