import { createSignal } from 'solid-js';

/**
 * Big text is fitted by measuring: it is never wrapped, and never ends in dots. One canvas measures; widths are kept, since
 * a number of the same length comes several times a second.
 */

/** Height of digits and capitals in em (B612, measured on its outlines). */
export const CAP_EM = 0.76;
/** Capitals with an accent over them: it reaches to where the line above ends. */
export const ACCENTED = /[\u00c0-\u00dd]/;
/** Width of a letter where nothing can be measured, em: wide enough for bold capitals. */
const GUESS_EM = 0.66;
const AT_PX = 100;
const MOST_KEPT = 600;

export type Weight = 400 | 700;

const [fonts, setFonts] = createSignal(0);
const widths = new Map<string, number>();
let context: CanvasRenderingContext2D | null | undefined;
let family = 'sans-serif';

function begin(): CanvasRenderingContext2D | null {
  if (typeof document === 'undefined') return null;
  const made = document.createElement('canvas').getContext?.('2d') ?? null;
  if (made === null || typeof made.measureText !== 'function') return null;
  family = getComputedStyle(document.documentElement).fontFamily || family;
  // Widths of the stand-in font are forgotten when the font itself has come.
  document.fonts?.addEventListener?.('loadingdone', () => {
    widths.clear();
    setFonts((n) => n + 1);
  });
  return made;
}

/**
 * Width in em, of one line. Read inside a computation it is measured again when the fonts have come.
 * @param spacingEm set between any two letters
 */
export function widthEm(text: string, weight: Weight = 700, spacingEm = 0): number {
  fonts();
  if (context === undefined) context = begin();
  const key = `${weight} ${text}`;
  let em = widths.get(key);
  if (em === undefined) {
    if (context === null) em = text.length * GUESS_EM;
    else {
      context.font = `${weight} ${AT_PX}px ${family}`;
      em = context.measureText(text).width / AT_PX;
    }
    if (widths.size > MOST_KEPT) widths.clear();
    widths.set(key, em);
  }
  return Math.max(0, em + spacingEm * text.length);
}

export interface FitRoom {
  /** px that one line may be wide, and its digits or capitals high. */
  readonly width: number;
  readonly height: number;
  readonly weight?: Weight;
  readonly spacingEm?: number;
  /** Width that goes with a line beside its letters, em. */
  readonly besideEm?: number;
}

/** The largest font size, whole px, at which every line fits into the room; `height` counts for one line. */
export function fit(lines: string | readonly string[], room: FitRoom): number {
  const all = typeof lines === 'string' ? [lines] : lines;
  const letters = all.map((line) => widthEm(line, room.weight ?? 700, room.spacingEm ?? 0));
  const em = Math.max(0.01, ...letters) + (room.besideEm ?? 0);
  return Math.max(1, Math.floor(Math.min(room.width / em, room.height / CAP_EM)));
}

/** A part of a text: its words wrap, unless no-break spaces hold them together. */
export interface Run {
  readonly text: string;
  readonly weight: Weight;
  /** Width that goes with its first word, em. */
  readonly besideEm?: number;
}

/** Lines that a text takes; null: one of its words is wider than the room. */
function linesIn(text: string | readonly Run[], weight: Weight, lineEm: number): number | null {
  const runs: readonly Run[] = typeof text === 'string' ? [{ text, weight }] : text;
  const space = widthEm(' ', weight);
  const words = runs.flatMap((run) =>
    run.text.split(/ /).map((word, i) => widthEm(word, run.weight) + (i === 0 ? (run.besideEm ?? 0) : 0)),
  );
  let lines = 1;
  let used = 0;
  for (const em of words) {
    if (em > lineEm) return null;
    if (used > 0 && used + space + em > lineEm) {
      lines++;
      used = em;
    } else used += (used > 0 ? space : 0) + em;
  }
  return lines;
}

/** Lines that a text takes in a width, at a font size, px. */
export const linesOf = (text: string, px: number, width: number, weight: Weight = 400): number =>
  linesIn(text, weight, width / px) ?? text.split(/ /).length;

/**
 * The largest font size up to `most` at which a text that may wrap between words fits into the room.
 * @param lineEm height of a line, em
 * @returns at least `least`, px: smaller it is not read
 */
export function fitBlock(
  text: string | readonly Run[],
  room: { readonly width: number; readonly height: number },
  {
    most,
    least,
    weight = 400,
    lineEm = 1.2,
  }: { most: number; least: number; weight?: Weight; lineEm?: number },
): number {
  for (let px = Math.floor(most); px > least; px--) {
    const lines = linesIn(text, weight, room.width / px);
    if (lines !== null && lines * lineEm * px <= room.height) return px;
  }
  return least;
}
