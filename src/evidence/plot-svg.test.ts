import { describe, expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { createFormat } from '../words/create-format.ts';
import { escapeXml } from './escape.ts';
import { PAPER } from './pictures.ts';
import { linePath, niceStep, type Plot, type PlotLine, plotSvg } from './plot-svg.ts';

const window = (s: number[], min: number[], max = min): TraceWindow => ({
  fromS: s[0] ?? 0,
  toS: s.at(-1) ?? 0,
  s: Float64Array.from(s),
  series: [
    { name: 'bar', place: null, channel: -1, min: Float32Array.from(min), max: Float32Array.from(max) },
  ],
  readings: s.length,
});

const line = (w: TraceWindow, part: Partial<PlotLine> = {}): PlotLine => ({
  label: 'Pressure',
  kind: 'bar',
  window: w,
  series: 0,
  shiftS: 0,
  dash: '',
  width: 1.5,
  gaps: [],
  ...part,
});

const plain = (v: number): number => v;

describe('the line', () => {
  it('shows lowest and highest of each bucket', () => {
    expect(linePath(line(window([0, 1], [1, 2], [1, 5])), plain, plain, 0, 10)).toBe('M0 1L1 2V5');
  });

  it('breaks where values are missing for long, where a gap is, and at the edges of the view', () => {
    const w = window([0, 1, 20, 21], [1, 1, 1, 1]);
    expect(linePath(line({ ...w, toS: 4 }), plain, plain, 0, 30)).toBe('M0 1L1 1M20 1L21 1');
    const gaps = [{ fromS: 0.4, toS: 0.6 }];
    expect(linePath(line(window([0, 1, 2], [1, 1, 1]), { gaps }), plain, plain, 0, 30)).toBe('M0 1M1 1L2 1');
    expect(linePath(line(window([0, 1, 2], [1, 1, 1])), plain, plain, 0.5, 30)).toBe('M1 1L2 1');
  });

  it('joins the holes of a channel that converts seldom', () => {
    const w = window([0, 1, 2], [4, Number.NaN, 5]);
    expect(linePath(line(w), plain, plain, 0, 10)).toBe('M0 4L2 5');
  });
});

it('steps are those that people count in', () => {
  expect([niceStep(2.2, 5), niceStep(9, 4), niceStep(0.3, 5)].map((v) => Math.round(v * 1e6) / 1e6)).toEqual([
    0.5, 5, 0.1,
  ]);
});

it('the picture has a filled ground, its title, and no text that is not escaped', () => {
  const plot: Plot = {
    width: 400,
    height: 200,
    fromS: 0,
    toS: 10,
    title: 'A <b> & "c"',
    units: { pressure: 'bar', temperature: 'C', length: 'mm' },
    format: createFormat('point'),
    ink: PAPER,
    lines: [line(window([0, 5, 10], [1, 1.5, 1.2]), { label: '<i>' })],
    rules: [{ label: 'rated', bar: 1.8, fromS: 0, toS: 10, dash: '' }],
    bands: [{ fromS: 2, toS: 8, low: 0.9, high: 1.7 }],
    stages: [{ label: 'Hold', fromS: 2, toS: 8 }],
    marks: [{ atS: 4, priority: 'urgent' }],
  };
  const svg = plotSvg(plot);
  expect(svg).toContain('<rect width="400" height="200" fill="#ffffff"/>');
  expect(svg).toContain('<title>A &lt;b&gt; &amp; &quot;c&quot;</title>');
  expect(svg).not.toMatch(/<b>|<i>|NaN|undefined/);
  expect(svg).toContain(PAPER.alarm.urgent);
});

it('text for XML keeps every letter and drops what XML has not', () => {
  expect(escapeXml(`a\u0000\u0008\u000b\u001f\u007f\ufffe\uffffb\t\n`)).toBe('ab\t\n');
  expect(escapeXml(`<a href='x'>"é"&😀`)).toBe('&lt;a href=&#39;x&#39;&gt;&quot;é&quot;&amp;😀');
});
