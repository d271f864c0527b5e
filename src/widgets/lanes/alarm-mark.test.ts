import { expect, it } from 'vitest';
import { alarmMark } from './alarm-mark.ts';
import type { PathShape } from './shape.ts';

const BOX = { x: 20, y: 10, w: 400, h: 220 };
const outline = (priority: 'urgent' | 'high', x = 100) =>
  alarmMark(x, BOX, priority, false, false).find((s): s is PathShape => s.k === 'path' && s.closed === true)!;

it('each priority has its own shape: octagon, triangle, disc', () => {
  expect(outline('urgent').points).toHaveLength(8);
  expect(outline('high').points).toHaveLength(3);
  expect(alarmMark(100, BOX, 'low', false, false).some((s) => s.k === 'disc')).toBe(true);
  expect(alarmMark(100, BOX, null, false, false)).toHaveLength(1);
});

it('amber is never a thin line on light ground: it lies between edges of ink', () => {
  const lines = alarmMark(100, BOX, 'high', false, false).filter(
    (s): s is PathShape => s.k === 'path' && s.points.length === 2,
  );
  expect(lines.map((l) => [l.pen!.tone, l.pen!.wide])).toEqual([
    ['ink', 4],
    ['high', 2],
  ]);
});

it('put aside: the shape is hollow, and the line stays where the alarm was', () => {
  const shape = alarmMark(100, BOX, 'urgent', true, false).find(
    (s): s is PathShape => s.k === 'path' && s.closed === true,
  )!;
  expect(shape.fill).toBe('plate');
  expect(shape.pen!.tone).toBe('urgent-thin');
});

it('the shape stays inside the lane where its line lies at the edge', () => {
  for (const x of [20, 420]) {
    const xs = outline('urgent', x).points.map((p) => p[0]);
    expect(Math.min(...xs)).toBeGreaterThanOrEqual(20);
    expect(Math.max(...xs)).toBeLessThanOrEqual(420);
  }
});
