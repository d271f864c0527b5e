import { describe, expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { createFormat, METRIC } from '../words/create-format.ts';
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
  endBar: null,
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

  it('goes along the end of the sensor where readings stand past it', () => {
    const w = window([0, 1, 2], [3, 3.9, 3], [3, 4.12, 3]);
    expect(linePath(line(w, { endBar: 4 }), plain, plain, 0, 10)).toBe('M0 3L1 3.9V4L2 3');
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
    timeName: 'time in min:s',
    ink: PAPER,
    lines: [line(window([0, 5, 10], [1, 1.5, 1.2]), { label: '<i>' })],
    rules: [{ label: 'rated', bar: 1.8, fromS: 0, toS: 10, dash: '', width: 1 }],
    bands: [{ fromS: 2, toS: 8, low: 0.9, high: 1.7 }],
    stages: [{ label: 'Hold', fromS: 2, toS: 8 }],
    marks: [{ atS: 4, priority: 'urgent' }],
  };
  const svg = plotSvg(plot);
  expect(svg).toContain('>time in min:s</text>');
  expect(svg).toContain('<rect width="400" height="200" fill="#ffffff"/>');
  expect(svg).toContain('<title>A &lt;b&gt; &amp; &quot;c&quot;</title>');
  expect(svg).not.toMatch(/<b>|<i>|NaN|undefined/);
  expect(svg).toContain(PAPER.alarm.urgent);
});

describe('lanes and names', () => {
  const window2 = window([0, 5, 10], [1, 1.5, 1.2]);
  const temperature = {
    ...window2,
    series: [
      window2.series[0]!,
      {
        ...window2.series[0]!,
        name: 'temperature' as const,
        min: Float32Array.of(10, 14, 12),
        max: Float32Array.of(10, 14, 12),
      },
    ],
  };
  const rule = (label: string, bar: number) => ({ label, bar, fromS: 0, toS: 10, dash: '', width: 1 });
  const svg = plotSvg({
    width: 600,
    height: 300,
    fromS: 0,
    toS: 10,
    title: 'Trace',
    units: { pressure: 'bar', temperature: 'C', length: 'mm' },
    format: createFormat('point'),
    timeName: 'time in min:s',
    ink: PAPER,
    lines: [
      line(temperature),
      line(temperature, { kind: 'temperature', series: 1, label: 'Sleeve', dash: '5 3' }),
    ],
    rules: [rule('Rated', 1.8), rule('Ceiling', 1.78), rule('Working', 1.76), rule('Floor', 0.9)],
    bands: [],
    stages: [],
    marks: [],
  });
  const paths = [...svg.matchAll(/<path d="(M[^"]*)" fill="none"/g)].map((m) => m[1]!);
  const ys = (d: string) => [...d.matchAll(/[ V](-?[\d.]+)/g)].map((m) => Number(m[1]));
  const names = [
    ...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*>((?:Rated|Ceiling|Working|Floor) [\d.]+)/g),
  ];

  it('temperatures run in a lane of their own, under the pressure', () => {
    const [pressure, sleeve] = paths;
    expect(Math.max(...ys(pressure!))).toBeLessThan(Math.min(...ys(sleeve!)));
  });

  it('names stand with their values right of every line, none over another', () => {
    expect(names.map((m) => m[3])).toEqual(['Rated 1.80', 'Ceiling 1.78', 'Working 1.76', 'Floor 0.90']);
    const right = Math.max(
      ...paths.flatMap((d) => [...d.matchAll(/[ML](-?[\d.]+) /g)].map((m) => Number(m[1]))),
    );
    for (const m of names) expect(Number(m[1])).toBeGreaterThan(right);
    const at = names.map((m) => Number(m[2]));
    for (let i = 1; i < at.length; i++) expect(at[i]! - at[i - 1]!).toBeGreaterThanOrEqual(12.9);
  });
});

it('text for XML keeps every letter and drops what XML has not', () => {
  expect(escapeXml(`a\u0000\u0008\u000b\u001f\u007f\ufffe\uffffb\t\n`)).toBe('ab\t\n');
  expect(escapeXml(`<a href='x'>"é"&😀`)).toBe('&lt;a href=&#39;x&#39;&gt;&quot;é&quot;&amp;😀');
});

describe('the names under the plot', () => {
  const of = (width: number, labels: readonly string[]) => {
    const lines = labels.map((label) => line(window([0, 1], [1, 1]), { label }));
    const svg = plotSvg({
      width,
      height: 360,
      fromS: 0,
      toS: 60,
      title: '',
      units: METRIC,
      format: createFormat('point'),
      ink: PAPER,
      lines,
      rules: [],
      bands: [],
      stages: [],
      timeName: 'time in min:s',
      marks: [],
    });
    const texts = [...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)" text-anchor="(\w+)"[^>]*>([^<]*)</g)];
    return texts
      .map(([, x, y, anchor, text = '']) => ({ x: Number(x), y: Number(y), anchor, text }))
      .filter(({ y }) => y > 300);
  };
  const RUNS = ['1 Crack at 12.4 m, 2026-04-14 08:05 UTC', '2 Crack at 12.4 m, 2026-04-14 09:14 UTC'];

  it('stand in one row with what the times are where they have room', () => {
    const last = of(1200, RUNS).slice(-3);
    expect(new Set(last.map(({ y }) => y)).size).toBe(1);
    expect(last.map(({ text }) => text)).toEqual([...RUNS, 'time in min:s']);
  });

  it.each([300, 400, 560, 700])('reach over no edge and over no other name, %i px wide', (width) => {
    // 6.2 px a letter of 11 px: wider than sans-serif letters are on average (measured on two of them).
    const boxes = of(width, RUNS).map(({ x, y, anchor, text }) => {
      const wide = text.length * 6.2;
      const x0 = anchor === 'end' ? x - wide : anchor === 'middle' ? x - wide / 2 : x;
      return { x0, x1: x0 + wide, y, text };
    });
    expect(boxes.map(({ text }) => text).join(' ')).toContain('time in min:s');
    expect(boxes.filter(({ x1 }) => x1 > width)).toEqual([]);
    const over = boxes.flatMap((a, i) =>
      boxes.slice(i + 1).filter((b) => Math.abs(a.y - b.y) < 11 && a.x0 < b.x1 && b.x0 < a.x1),
    );
    expect(over).toEqual([]);
  });
});

it('names of limits stand beside the plot, in a narrow picture within it', () => {
  const narrow = (width: number) =>
    plotSvg({
      width,
      height: 300,
      fromS: 0,
      toS: 10,
      title: '',
      units: METRIC,
      format: createFormat('point'),
      timeName: '',
      ink: PAPER,
      lines: [line(window([0, 10], [1, 1]))],
      rules: [{ label: 'Hold floor', bar: 0.77, fromS: 0, toS: 10, dash: '', width: 1 }],
      bands: [],
      stages: [],
      marks: [],
    });
  const plotEnd = (svg: string) => Number(/d="M46 [\d.]+H([\d.]+)"/.exec(svg)?.[1]);
  const nameAt = (svg: string) => Number(/<text x="([\d.]+)"[^>]*>Hold floor 0\.77/.exec(svg)?.[1]);
  expect(nameAt(narrow(700))).toBeGreaterThan(plotEnd(narrow(700)));
  expect(nameAt(narrow(300))).toBeLessThan(plotEnd(narrow(300)));
  expect(plotEnd(narrow(300))).toBeGreaterThan(0.9 * 300);
});
