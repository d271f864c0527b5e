import { describe, expect, it } from 'vitest';
import { lanesBox } from '../../widgets/lanes/geometry.ts';
import {
  drawerOver,
  type Layout,
  LEAST_TARGET,
  layoutOf,
  orderRect,
  PRACTICE_FRAME,
  type Rect,
  SHARE,
} from './layout.ts';
import { apart, WINDOWS } from './testing/windows.ts';

/** The windows that the face is drawn for, and each at 200 % zoom of the browser. */
const SIZES: readonly (readonly [number, number])[] = [
  ...WINDOWS,
  ...WINDOWS.map(([w, h]) => [w / 2, h / 2] as const),
  // Between and beyond them.
  [320, 568],
  [412, 915],
  [599, 960],
  [640, 640],
  [768, 1024],
  [1000, 640],
  [1920, 1080],
  [2560, 1440],
];

const inside = (a: Rect, b: Rect) =>
  a.x >= b.x && a.y >= b.y && a.x + a.w <= b.x + b.w + 0.01 && a.y + a.h <= b.y + b.h + 0.01;
const whole = (l: Layout): Rect => ({ x: 0, y: 0, w: l.w, h: l.h });
const names = ['strip', 'lead', 'lanes', 'cure', 'order'] as const;

describe.each(SIZES)('at %i x %i', (width, height) => {
  const all = [false, true].flatMap((practice) =>
    Object.values(SHARE).map((share) => layoutOf(width, height, practice, share)),
  );

  it('the zones stand in the window without overlap', () => {
    for (const l of all) {
      expect(l.w * l.zoom).toBeLessThanOrEqual(width + 0.01);
      expect(l.h * l.zoom).toBeLessThanOrEqual(height + 0.01);
      for (const a of names) {
        expect(inside(l[a], whole(l)), a).toBe(true);
        for (const b of names) if (a < b) expect(apart(l[a], l[b]), `${a} ${b}`).toBe(true);
      }
      expect(inside(l.pressure, l.lead) && inside(l.time, l.lead)).toBe(true);
      expect(apart(l.pressure, l.time)).toBe(true);
    }
  });

  it('an alarm covers neither number, trace nor ladder', () => {
    for (const l of all) {
      const { lanes } = l;
      const { pressure, temperature } = lanesBox(lanes);
      // A pointer at zero reaches half its triangle under the scale.
      const scale = { ...lanes, h: pressure.y + pressure.h + (lanes.small ? 9 : 16) };
      for (const alarm of [l.alarm, l.alarmHigh]) {
        expect(inside(alarm, whole(l))).toBe(true);
        expect(apart(alarm, l.lead) && apart(alarm, scale) && apart(alarm, l.strip)).toBe(true);
        // Of the temperatures it takes all or nothing: the scale's unit stood out over it.
        if (!apart(alarm, lanes)) expect(alarm.y).toBeLessThan(lanes.y + temperature.y);
        expect(inside(l.order, alarm)).toBe(true);
      }
      expect(scale.h - lanes.ribbonH).toBeGreaterThan(100);
    }
  });

  it('the drawer covers the trace and nothing of the ladder', () => {
    for (const l of all) {
      expect(inside(l.drawer, l.lanes)).toBe(true);
      expect(l.drawer.x + l.drawer.w).toBe(l.lanes.x + l.lanes.w - l.lanes.ladderW);
      expect(l.drawer.w).toBeGreaterThanOrEqual(170);
      expect(l.drawer.h).toBeGreaterThanOrEqual(130);
    }
  });

  it('keys are large enough, apart, and acknowledge stands on none of them', () => {
    for (const l of all) {
      for (const k of [l.key, l.more, l.ack, l.row]) {
        expect(k.h).toBeGreaterThanOrEqual(LEAST_TARGET);
        expect(inside(k, l.alarm)).toBe(true);
      }
      expect(inside(l.ack, l.alarmHigh)).toBe(true);
      for (const k of [l.key, l.more]) {
        expect(inside(k, l.order)).toBe(true);
        expect(apart(k, l.ack) && apart(k, l.row) && apart(k, l.text)).toBe(true);
        expect(apart(l.ack, l.row)).toBe(true);
      }
      expect(apart(l.key, l.more)).toBe(true);
      expect(inside(l.text, l.order) && inside(l.row, l.order)).toBe(true);
    }
  });

  it('no share of the lead moves a key', () => {
    const [one, ...others] = Object.values(SHARE).map((share) => layoutOf(width, height, false, share));
    for (const l of others)
      for (const k of ['order', 'key', 'more', 'ack', 'row', 'text', 'lanes', 'cure'] as const)
        expect(l[k]).toEqual(one?.[k]);
  });

  it('no order covers the drawer, which keeps room for its tabs and a row under them', () => {
    const l = layoutOf(width, height, false);
    for (const form of [null, 'urgent', 'high', 'was'] as const) {
      const order = orderRect(l, form);
      const drawer = drawerOver(l, order);
      expect(apart(drawer, order), String(form)).toBe(true);
      expect(inside(drawer, l.drawer)).toBe(true);
      expect(drawer.h).toBeGreaterThanOrEqual(2 * LEAST_TARGET);
    }
  });

  it('a practice has room for its frame', () => {
    const l = layoutOf(width, height, true);
    for (const a of ['lead', 'lanes', 'cure', 'order'] as const) {
      expect(l[a].x).toBeGreaterThanOrEqual(PRACTICE_FRAME);
      expect(l[a].x + l[a].w).toBeLessThanOrEqual(l.w - PRACTICE_FRAME);
      expect(l[a].y + l[a].h).toBeLessThanOrEqual(l.h - PRACTICE_FRAME);
    }
  });
});

it('the arrangement follows the shape, a low window is one drawing enlarged', () => {
  const modes = WINDOWS.map(([w, h]) => layoutOf(w, h, false).mode);
  expect(modes).toEqual(['tall', 'low', 'tall', 'wide', 'low', 'wide', 'wide', 'low']);
  expect(layoutOf(740, 360, false).zoom).toBe(1);
  expect(layoutOf(1024, 600, false).zoom).toBeCloseTo(1024 / 740);
  expect(layoutOf(1180, 820, false).zoom).toBe(1);
  // At 200 % zoom of a phone all of it is there, in half the window's px and as large as before to the eye.
  expect(layoutOf(180, 370, false).zoom).toBe(0.5);
});
