import type { Settings } from '../../book/settings.ts';
import { showNumber } from '../../sheets/showValue.ts';
import { escaped } from '../escaped.ts';
import type { Card } from './card.ts';
import { drawPiece } from './drawPiece.ts';
import { leaders } from './leaders.ts';
import { lengthText, longText } from './lengthText.ts';
import { scaleBar, tickRow, widthMark, widthWords } from './scales.ts';
import { type SetUp, setUp } from './setUp.ts';
import { centred, dimension, hasRoom, label, letterMm, mm, rowMm } from './svg.ts';

/** Kept free beside the full-size drawing, for its width. */
const besideMm = 33;
/** Kept free beside a title, for the scale bar. */
const besideBarMm = 42;
/** Of hardware at the left end, at full size. */
const hardwareShownMm = 14;
/** The piece begins so far from the edge of the figure. */
const marginMm = 1;

interface Part {
  readonly svg: string;
  readonly heightMm: number;
}

/**
 * The set-up of a piece as SVG in millimetres of paper: the whole piece at the largest whole scale that fits,
 * and, where that is not full size, its left end at full size, to lay the work on.
 *
 * @param widthMm of paper that the figure may take
 * @param id beginning of the names inside it, one of its kind on the page
 */
export function setUpFigure(card: Card, settings: Settings, widthMm: number, id: string): string {
  const piece = setUp(card);
  const fits = piece.lengthMm <= widthMm - besideMm;
  const scale = fits ? 1 : Math.max(2, Math.ceil(piece.lengthMm / (widthMm - 2 * marginMm)));
  const whole = wholePiece(card, piece, settings, widthMm, scale);
  const end = fits ? undefined : leftEnd(card, piece, settings, widthMm, whole.heightMm, `${id}-clip`);
  const heightMm = whole.heightMm + (end?.heightMm ?? 0);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${mm(widthMm)} ${mm(heightMm)}" width="${mm(widthMm)}mm" height="${mm(heightMm)}mm" role="img" aria-labelledby="${id}-title ${id}-desc" font-size="${letterMm}">`,
    `<title id="${id}-title">${escaped(`Set-up of ${card.name}${card.size === '' ? '' : `, ${card.size}`}`)}</title>`,
    `<desc id="${id}-desc">${escaped(inWords(card, piece, settings, scale))}</desc>`,
    whole.svg,
    ...(end === undefined ? [] : [end.svg]),
    '</svg>',
  ].join('\n');
}

/** `36 half knots in each layer`: as many as are tied, or the nearest whole number of what is counted. */
export function knotWords(card: Card, settings: Settings): string {
  return `${showNumber(card.halfKnotsToTie ?? card.knots ?? 0, 0, settings)} ${card.counted}${card.layers > 1 ? ' in each layer' : ''}`;
}

function wholePiece(card: Card, piece: SetUp, settings: Settings, widthMm: number, scale: number): Part {
  const isOnly = scale === 1;
  const x = (alongMm: number): number => marginMm + alongMm / scale;
  const title = `Whole piece, ${scaleText(scale)}`;
  const hardware = hardwareWords(card, piece, settings);
  const whole = hardware === '' ? title : `${title}; ${hardware}`;
  const isOneRow = hasRoom(whole, widthMm - besideBarMm);
  const parts = [
    label(0, letterMm, isOneRow ? whole : title, widthMm - besideBarMm),
    isOneRow ? '' : label(0, letterMm + rowMm, hardware, widthMm),
    scaleBar(widthMm, scale, settings, 0),
  ];
  let y = rowMm * (isOneRow ? 1 : 2) + 4.5;
  if (card.finishedMm !== null) {
    const toX = x(card.finishedMm);
    parts.push(
      centred(`finished ${longText(card.finishedMm, settings)}`, marginMm, toX, y, widthMm),
      dimension(marginMm, toX, y + 1.6),
    );
    y += 7;
  }
  const [fromX, toX] = [x(piece.woven.fromMm), x(piece.woven.toMm)];
  const knots = card.knots === null ? '' : `, ${knotWords(card, settings)}`;
  parts.push(
    centred(`woven ${longText(card.wovenMm, settings)}${knots}`, fromX, toX, y, widthMm),
    dimension(fromX, toX, y + 1.6),
  );
  y += 3.4;
  const ticks = tickRow(card, piece, settings, x, y, scale);
  y += ticks.heightMm;
  const half = halfHeight(card, piece) / scale;
  const middleMm = y + half;
  parts.push(
    ticks.svg,
    drawPiece(card, piece, { xMm: marginMm, yMm: middleMm, scale, toMm: piece.lengthMm, weave: isOnly }),
  );
  y = middleMm + half;
  if (isOnly) {
    const named = leaders(card, piece, { xMm: marginMm, middleMm, topMm: y, toMm: piece.lengthMm, widthMm });
    parts.push(widthMark(card, piece, settings, x(piece.lengthMm) + 3, middleMm), named.svg);
    y += named.heightMm;
  }
  return { svg: parts.join('\n'), heightMm: y + 2 };
}

function leftEnd(
  card: Card,
  piece: SetUp,
  settings: Settings,
  widthMm: number,
  topMm: number,
  clip: string,
): Part {
  // Hardware is drawn as far as the work reaches: of a long splice or hook, the end next to the weave.
  const fromMm = Math.max(0, piece.woven.fromMm - hardwareShownMm);
  const toMm = Math.min(piece.lengthMm, fromMm + widthMm - besideMm);
  const xMm = marginMm - fromMm;
  const edgeX = xMm + toMm;
  const half = halfHeight(card, piece);
  const middleMm = topMm + rowMm + 2 + half + 1;
  const belowMm = middleMm + half;
  const named = leaders(card, piece, { xMm, middleMm, topMm: belowMm, toMm, widthMm });
  const title = 'Left end, full size';
  const longer = `${title}: lay the work on it`;
  return {
    svg: [
      label(0, topMm + letterMm, hasRoom(longer, widthMm - besideBarMm) ? longer : title, widthMm),
      scaleBar(widthMm, 1, settings, topMm),
      `<clipPath id="${clip}"><rect x="0" y="${mm(middleMm - half - 3)}" width="${mm(edgeX)}" height="${mm(2 * half + 6)}"/></clipPath>`,
      `<g clip-path="url(#${clip})">`,
      drawPiece(card, piece, { xMm, yMm: middleMm, scale: 1, toMm, weave: true }),
      '</g>',
      piece.lengthMm > toMm ? breakLine(edgeX, middleMm, half + 1.5) : '',
      widthMark(card, piece, settings, edgeX + 4, middleMm),
      named.svg,
    ].join('\n'),
    heightMm: belowMm + named.heightMm + 1 - topMm,
  };
}

const scaleText = (scale: number): string => (scale === 1 ? 'full size' : `1 : ${scale}`);

const halfHeight = (card: Card, piece: SetUp): number =>
  Math.max(piece.widthMm, piece.hardware.length > 0 ? (card.slotWidthMm ?? 0) : 0) / 2 + 1;

/** The piece goes on beyond this line. */
function breakLine(x: number, middleMm: number, half: number): string {
  const waves = Array.from(
    { length: 6 },
    (_, at) => `q${at % 2 === 0 ? 1.4 : -1.4} ${mm(half / 6)} 0 ${mm(half / 3)}`,
  );
  return `<path class="break" d="M${mm(x)} ${mm(middleMm - half)}${waves.join('')}"/>`;
}

function hardwareWords(card: Card, piece: SetUp, settings: Settings): string {
  const where = piece.hardware.length === 1 ? 'at one end' : 'drawn half at each end';
  const takes = [
    ...(card.hardwareMm > 0 ? [`hardware takes ${lengthText(card.hardwareMm, settings)}`] : []),
    ...(card.webbingMm > 0 ? [`webbing takes ${lengthText(card.webbingMm, settings)}`] : []),
  ];
  return takes.length === 0 ? '' : `${takes.join(', ')}, ${where}`;
}

/** The figure for those who hear it. */
function inWords(card: Card, piece: SetUp, settings: Settings, scale: number): string {
  const hardware = hardwareWords(card, piece, settings);
  const words = [
    `Drawn ${scale === 1 ? 'at full size' : `at ${scaleText(scale)}, with its left end at full size`}.`,
    card.finishedMm === null ? '' : `Finished length ${longText(card.finishedMm, settings)}.`,
    hardware === '' ? '' : `Of this, ${hardware}.`,
    `Woven part ${longText(card.wovenMm, settings)}, ${widthWords(card, settings).join(card.widthMm === null ? ' ' : ', ')}.`,
    card.knots === null ? '' : `${knotWords(card, settings)}.`,
    ...card.cords.map(
      (cord) =>
        `${cord.role}: ${cord.cords * cord.strandsInEach} of ${cord.cord}${cord.colour === '' ? '' : ` (${cord.colour})`}.`,
    ),
  ];
  return words.filter((each) => each !== '').join(' ');
}
