import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { captureOf } from '../record/testing/capture.ts';
import { english } from '../words/testing/english.ts';
import { parseOptions } from './options.ts';
import { resultSchema } from './result.ts';
import { replay } from './run.ts';
import { faultOf } from './testing/fault-of.ts';

const fixture = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`../../fixtures/${name}`, import.meta.url)));
const text = (t: string): Uint8Array => new TextEncoder().encode(t);
const judged = (trace: Uint8Array, ...args: string[]) =>
  replay(parseOptions(['--trace', 'x', ...args]), trace, null, english);

/** 0, a rise of 0.1 bar/s to `top` from 10 s on, then still; 10 Hz. */
function ramp(top: number, seconds: number, extra: (t: number) => string = () => ''): Uint8Array {
  const rows = ['time_s,pressure_bar'];
  for (let k = 0; k <= seconds * 10; k++) {
    const t = k / 10;
    const p = Math.min(top, Math.max(0, (t - 10) * 0.1)) + 0.001 * ((k * 7919) % 3);
    rows.push(`${t},${p.toFixed(3)}${extra(t)}`);
  }
  return text(`${rows.join('\n')}\n`);
}

describe('replay', () => {
  it('with --rated alone takes hose, unknown line, U 0.015, working = ceiling and no cue, and says so', () => {
    const r = judged(ramp(1, 60), '--rated', '1.5');
    expect(r).toMatchObject({
      tap: 'hose',
      line: 'unknown',
      limits: { ratedBar: 1.5, ceilingBar: 1.485, workingBar: 1.485, floorBar: null, uBar: 0.015 },
      cues: [],
      tooFast: [],
      cure: null,
      firstS: 0,
      lastS: 60,
      readings: 601,
    });
    expect(r.peakBar).toBeCloseTo(1, 2);
    expect(r.stages.map((s) => s.stage)).toEqual(['prepare', 'inflate', 'hold']);
    expect(r.alarms).toEqual([]);
  });

  it('raises the ceiling alarm on the median of three: one sample after the crossing', () => {
    const r = judged(ramp(3, 60), '--rated', '1.5');
    const ceiling = r.alarms.find((a) => a.alarm === 'ceiling');
    expect(ceiling?.priority).toBe('urgent');
    // 1.485 bar is crossed at 24.85 s; samples are 0.1 s apart.
    expect(ceiling?.raisedS).toBeGreaterThanOrEqual(24.8);
    expect(ceiling?.raisedS).toBeLessThanOrEqual(25);
    expect(ceiling?.clearedS).toBeNull();
    expect(ceiling?.text).toMatch(/bar/);
  });

  it('working over the ceiling is working without margin', () => {
    expect(judged(ramp(1, 30), '--rated', '1.5', '--working', '1.5').limits).toMatchObject({
      ceilingBar: 1.5,
      workingBar: 1.5,
    });
  });

  it('marks a hole in the times, and an empty cell as no reading', () => {
    const rows = new TextDecoder().decode(ramp(1, 60)).split('\n');
    const holed = rows
      .filter((_, i) => i < 300 || i > 420)
      .map((r, i) => (i === 100 ? r.replace(/,.*/, ',') : r));
    const r = judged(text(holed.join('\n')), '--rated', '1.5');
    expect(r.gaps).toEqual([{ reason: 'silence', fromS: 29.8, toS: 42 }]);
  });

  it('a single impossible value changes nothing of the judgement but that reading, and is named', () => {
    const rows = new TextDecoder().decode(ramp(1, 60)).split('\n');
    const spoilt = rows.map((r, i) => (i === 250 ? r.replace(/,.*/, ',9999') : r));
    const [whole, one] = [
      judged(ramp(1, 60), '--rated', '1.5'),
      judged(text(spoilt.join('\n')), '--rated', '1.5'),
    ];
    expect(one.unusable).toEqual({
      cells: 1,
      listed: [
        { row: 251, column: 'pressure_bar', text: 'row 251: pressure_bar "9999" is outside -1.05 to 100' },
      ],
    });
    expect(whole.unusable).toEqual({ cells: 0, listed: [] });
    expect(one.alarms).toEqual([]);
    expect(one.peakBar).toBeCloseTo(whole.peakBar!, 2);
    expect(one.stages.map((s) => s.stage)).toEqual(whole.stages.map((s) => s.stage));
  });

  it('a logger that writes an error code for seconds is a lost reading, never a pressure', () => {
    const rows = new TextDecoder().decode(ramp(1, 60)).split('\n');
    const spoilt = rows.map((r, i) => (i >= 200 && i < 260 ? r.replace(/,.*/, ',99.99e3') : r));
    const { alarms, unusable, peakBar } = judged(text(spoilt.join('\n')), '--rated', '1.5');
    expect(unusable.cells).toBe(60);
    expect(alarms.map((a) => a.alarm)).toEqual(['pressure-lost']);
    expect(alarms[0]!.raisedS).toBeCloseTo(19.9 + 0.5, 0);
    expect(alarms[0]!.clearedS).not.toBeNull();
    expect(peakBar).toBeLessThan(1.1);
  });

  it('without a limit judges what can be judged', () => {
    const r = judged(ramp(1, 60), '--tap', 'packer', '--line', 'closed');
    expect(r).toMatchObject({ limits: null, tap: 'packer', line: 'closed' });
  });

  it('at a supply tap hold and leak are not claimed', () => {
    const r = judged(ramp(1, 120), '--rated', '1.5', '--tap', 'supply');
    for (const h of r.holds) expect(['cannot-be-seen', 'cannot-tell']).toContain(h.leak.verdict);
  });

  it('an input log and its bare capture have the same readings and peak', async () => {
    const log = fixture('logs/by-the-book.pages');
    const a = judged(log);
    const b = judged(await captureOf(log), '--rated', '1.8', '--u', '0.03');
    expect(b.readings).toBe(a.readings);
    // The capture knows nothing of the zero that was taken.
    expect(Math.abs(b.peakBar! - a.peakBar!)).toBeLessThan(0.01);
    expect(b.lastS).toBeCloseTo(a.lastS!, 0);
    expect(a.stages.map((s) => s.stage)).toEqual(['prepare', 'inflate', 'hold', 'let-down', 'done']);
    expect(b.stages.map((s) => s.stage)).toEqual(expect.arrayContaining(['inflate', 'hold', 'let-down']));
  });

  it('limits on the command line replace those of an input log', () => {
    const r = judged(fixture('logs/by-the-book.pages'), '--rated', '1.4');
    expect(r.limits?.ratedBar).toBe(1.4);
    expect(r.alarms.some((a) => a.alarm === 'ceiling')).toBe(true);
  });

  it('a job gives limits, line, tap and cure; sleeve temperatures earn credit', () => {
    const job = readFileSync(new URL('../../fixtures/traces/demo-job.json', import.meta.url), 'utf8');
    const rows = new TextDecoder().decode(ramp(1.5, 3600, () => ',20.0')).split('\n');
    rows[0] = 'time_s,pressure_bar,temperature_c_sleeve';
    const r = replay(parseOptions(['--trace', 'x', '--job', 'j']), text(rows.join('\n')), job, english);
    expect(r).toMatchObject({ tap: 'hose', line: 'closed' });
    expect(r.limits?.ratedBar).toBe(1.8);
    expect(r.limits?.floorBar).toBeGreaterThan(0.5);
    expect(r.cure!.progress).toBeGreaterThan(0.3);
    expect(r.cure!.low).toBeLessThanOrEqual(r.cure!.progress);
    expect(r.cure!.high).toBeGreaterThanOrEqual(r.cure!.progress);
  }, 30_000);

  it.each([
    [new Uint8Array(0), /^--trace x: the file is empty$/],
    [
      text('hello world\n'),
      /^--trace x: neither an input log, nor a CSV .+: no frame of the device protocol/,
    ],
    [text('time_s,pressure_bar\n0,zero\n'), /^--trace x: row 2: pressure_bar "zero" is not a number$/],
    [fixture('logs/bad-cable.pages').slice(0, 60), /^--trace x: .*input log/],
  ])('bad input %# is named on one line', (bytes, message) => {
    expect(faultOf(() => judged(bytes, '--rated', '1.5'))).toMatch(message);
  });

  it('a damaged page in the middle of an input log is named, a torn tail is left out', () => {
    const log = fixture('logs/bad-cable.pages');
    const flipped = log.slice();
    flipped[60_000]! ^= 1;
    expect(faultOf(() => judged(flipped))).toMatch(
      /^--trace x: page \d+ \(byte \d+\) of the input log is damaged/,
    );
    const torn = judged(log.slice(0, log.length - 100));
    expect(resultSchema.parse(torn).readings).toBeGreaterThan(1500);
  });
});
