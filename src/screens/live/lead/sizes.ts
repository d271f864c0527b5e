import { ACCENTED, CAP_EM, fit, fitBlock, linesOf, widthEm } from '../../../widgets/fit.ts';
import type { Rect } from '../layout.ts';
import type { PressureSlot } from '../pressure-slot.ts';
import type { Part, TimeSlot } from '../time-slot.ts';

/** Font sizes of the two large values, px: as large as their slots take, the pressure always the larger. */

export interface SlotRoom {
  readonly rect: Pick<Rect, 'w' | 'h'>;
  readonly pad: number;
  readonly small: boolean;
}

/** Large digits stand closer than text does (tokens.css, --digit-gap). */
export const DIGIT_GAP_EM = -0.035;
/**
 * Over large digits there is so much air that they do not touch their name (live.css, .airy), em. A small window has none to spare,
 * nor have digits over a tag: they are the least that three metres take.
 */
const AIR_EM = 0.025;
export const isAiry = (slot: PressureSlot, { small }: SlotRoom): boolean => !small && slot.tag === null;
/** And a decimal comma reaches below them: room for it, a small window's too, em (live.css, .with-comma). */
const COMMA_EM = { small: 0.12, large: 0.09 } as const;
const airShare = ({ small }: SlotRoom, airy: boolean, comma = false): number =>
  CAP_EM / (CAP_EM + (airy ? AIR_EM : 0) + (comma ? COMMA_EM[small ? 'small' : 'large'] : 0));
/** A decimal comma stands among the digits. */
export const hasComma = (slot: PressureSlot): boolean => slot.digits.includes(',');
/** Of the pressure's size, the most that a time may have. */
const TIME_MOST = 0.86;
/** A unit beside a large number, as a share of it, and the space around it, em of the number. */
export const UNIT_SHARE = 0.3;
const UNIT_SPACE_EM = 0.14;

export const labelPx = ({ small }: SlotRoom): number => (small ? 12 : 17);
export const notePx = ({ small }: SlotRoom): number => (small ? 11 : 18);
export const unitPx = ({ small }: SlotRoom): number => (small ? 15 : 28);
const lineH = (px: number) => Math.ceil(px * 1.2);
const noteH = (note: string, room: SlotRoom) =>
  lineH(notePx(room)) * linesOf(note, notePx(room), room.rect.w - 2 * room.pad);
/** A fact under the time, px. */
export const FACT_PX = 17;

/** Smaller than this a name takes two lines, px. */
const leastLabelPx = ({ small }: SlotRoom) => (small ? 10 : 15);

/** Over the time: as large as its name has room, in one line or in two. */
export function timeLabelPx(slot: TimeSlot, room: SlotRoom): number {
  const width = room.rect.w - 2 * room.pad;
  const most = labelPx(room) + (room.small ? 0 : 5);
  const one = fit(slot.label, { width, height: most * CAP_EM });
  if (one >= leastLabelPx(room)) return one;
  return fitBlock(
    slot.label,
    { width, height: 2 * lineH(most) },
    { most, least: leastLabelPx(room), weight: 700 },
  );
}

function timeLabelH(slot: TimeSlot, room: SlotRoom): number {
  const px = timeLabelPx(slot, room);
  return lineH(px) * linesOf(slot.label, px, room.rect.w - 2 * room.pad, 700);
}

/** A tag on a plate of its own has this beside it, em (live.css). */
const TAG_PLATE_EM = 0.6;

/** Height that the tag under the digits takes, px; 0: none. */
export function tagSize(slot: PressureSlot, room: SlotRoom): number {
  if (slot.tag === null) return 0;
  const width = room.rect.w - 2 * room.pad;
  const besideEm = slot.face === 'empty' ? TAG_PLATE_EM : 0;
  return fit(slot.tag, { width, height: room.small ? 15 : Math.min(48, room.rect.h * 0.19), besideEm });
}

/** Every digit is as wide as an 8: a size that goes by the number's form does not tremble with the number. */
const form = (digits: string) => digits.replace(/\d/g, '8');

export function digitSize(slot: PressureSlot, unit: string, room: SlotRoom): number {
  const { w, h } = room.rect;
  const tag = tagSize(slot, room);
  const under =
    tag > 0 ? tag + (room.small ? 4 : 12) : room.small || slot.note === '' ? 2 : noteH(slot.note, room) + 6;
  const unitW = (widthEm(unit, 400) + 0.3) * unitPx(room);
  return fit(form(slot.digits), {
    width: w - 2 * room.pad - unitW,
    height:
      airShare(room, isAiry(slot, room), hasComma(slot)) *
      (h - 2 * room.pad - lineH(labelPx(room)) - under - (room.small ? 0 : 8)),
    spacingEm: DIGIT_GAP_EM,
  });
}

function partsEm(parts: readonly Part[]): number {
  return parts.reduce(
    (em, [value, unit]) =>
      em +
      widthEm(form(value), 700, DIGIT_GAP_EM) +
      (unit === '' ? 0 : UNIT_SHARE * widthEm(unit, 400) + UNIT_SPACE_EM),
    0,
  );
}

/** Height under the time: its note, the facts, the rungs, px. */
export function underTime(slot: TimeSlot, room: SlotRoom, facts: readonly string[]): number {
  const width = room.rect.w - 2 * room.pad;
  const note = slot.sub === '' ? 0 : noteH(slot.sub, room) + 4;
  const rungs = slot.rungs === null ? 0 : room.small ? 12 : 30;
  const lines = facts.map((fact) => linesOf(fact, FACT_PX, width) * (lineH(FACT_PX) + 2));
  return note + rungs + lines.reduce((sum, h) => sum + h, 0);
}

/** From line to line of words in capitals, em: an accent under another line keeps clear of it. */
export const wordsLineEm = (block: readonly string[]): number =>
  block.slice(1).some((line) => ACCENTED.test(line)) ? 1.1 : 0.98;

/** @param pressurePx size of the pressure's digits beside it */
export function timeSize(
  slot: TimeSlot,
  room: SlotRoom,
  pressurePx: number,
  facts: readonly string[],
): number {
  const width = room.rect.w - 2 * room.pad;
  const height =
    room.rect.h - 2 * room.pad - timeLabelH(slot, room) - underTime(slot, room, facts) - (room.small ? 2 : 8);
  if (slot.block !== null) {
    const n = slot.block.length;
    return Math.min(
      fit(slot.block, { width, height: ((height / n) * CAP_EM * 0.98 * 0.98) / wordsLineEm(slot.block) }),
      Math.floor(pressurePx * TIME_MOST),
    );
  }
  if (slot.big === null) return 0;
  const digitsH = (height * airShare(room, !room.small)) / CAP_EM;
  const px = Math.min(width / Math.max(0.01, partsEm(slot.big)), digitsH, pressurePx * TIME_MOST);
  return Math.max(1, Math.floor(px));
}
