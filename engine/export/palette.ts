/** Colours of the workbook and of pages; ARGB, as the file format wants them. */
export const ink = 'FF22303C';
export const paper = 'FFFFFFFF';
export const quiet = 'FFF3F1EC';
export const line = 'FFD5D0C5';
export const accent = 'FF2F5D62';
export const inputGround = 'FFFFF6DB';
export const overrideGround = 'FFE6EFF5';
export const good = 'FF3C7A57';
export const bad = 'FFA63D40';
export const watch = 'FFB7791F';

/** A colour as pages and pictures write it, without the opaqueness that a workbook puts first. */
export function cssColour(argb: string): string {
  return `#${argb.slice(2)}`;
}

/** The palette's watch and bad, thinned to a quarter on white: ink on them keeps more than 8 to 1. */
export const watchGround = 'FFEDDDC7';
export const badGround = 'FFE9CFD0';

/** Accent thinned to a third, so that the number on a bar stays as easy to read as without it. */
export const barColour = 'FFBACACB';

/** One family that every office program has, or has a twin of equal widths for. Two sizes only. */
export const fontName = 'Arial';
export const textSize = 10;
export const titleSize = 14;
