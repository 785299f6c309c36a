/**
 * Tints for the plain words with which makers call colours, muted so that they sit beside the palette and ink
 * outlines stay visible on each. They are a hint: the material's name stands beside every one.
 */
const tints: Readonly<Record<string, string>> = Object.freeze({
  black: '#3B4046',
  coal: '#4A4F55',
  charcoal: '#4A4F55',
  grey: '#9DA3A8',
  gray: '#9DA3A8',
  silver: '#C3C8CB',
  slate: '#66788A',
  white: '#FBFAF7',
  cream: '#F2E8D0',
  ivory: '#F2E8D0',
  natural: '#E6DAC0',
  sand: '#DBC9A1',
  beige: '#DBC9A1',
  tan: '#C8A878',
  khaki: '#A79D72',
  brown: '#7A5A43',
  chocolate: '#5E4434',
  red: '#B5473F',
  burgundy: '#75333B',
  maroon: '#75333B',
  rust: '#B0623C',
  orange: '#D9843B',
  coral: '#DE8570',
  pink: '#DFA0AE',
  ochre: '#C99A3B',
  gold: '#CFAE55',
  mustard: '#C9A13B',
  yellow: '#E5CC5A',
  lime: '#A9C45C',
  moss: '#77824F',
  olive: '#7C7A4A',
  green: '#5B8A62',
  teal: '#3F8283',
  turquoise: '#5FB0AE',
  blue: '#5A82AB',
  navy: '#37496A',
  purple: '#7B6391',
  violet: '#7B6391',
  lilac: '#B4A3C8',
});

/** The tint of a colour as a maker wrote it: that of the first word that is known; undefined where none is. */
export function cordTint(colour: string): string | undefined {
  const known = colour
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .find((word) => Object.hasOwn(tints, word));
  return known === undefined ? undefined : tints[known];
}
