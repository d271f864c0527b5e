import { describe, expect, it } from 'vitest';
import { apartFromWitnesses, DeviceClock } from './clock-apart.ts';
import type { LogEntry } from './log.ts';
import type { Manifest } from './manifest.ts';
import { scanPages } from './page-scanner.ts';
import { HEAD, plainSamples } from './testing/arbitrary.ts';
import type { Witnessed } from './witness/check-proof.ts';
import { createPageWriter } from './writer.ts';

/** What is remarked of a run with these entries, a page for each `perPage` of them. */
function remarksOf(entries: readonly LogEntry[], perPage = 25) {
  const clock = new DeviceClock();
  const writer = createPageWriter(HEAD);
  const pages: Uint8Array[] = [];
  entries.forEach((entry, i) => {
    writer.addEntry(entry);
    if (i % perPage === perPage - 1) pages.push(writer.cut(null)!);
  });
  pages.push(writer.finish(null, 'ended'));
  for (const item of scanPages(new Uint8Array(Buffer.concat(pages))))
    if (item.kind === 'page') clock.page(item.page);
  return clock.remarks();
}

/** Two minutes at 50 Hz, the device's ticks beside the arrivals. */
const samples = plainSamples(6000, 50).map((entry): LogEntry => {
  if (entry.l !== 'frame' || entry.frame.t !== 'S') throw new Error('no sample');
  return { ...entry, frame: { ...entry.frame, tick: Math.round(entry.tUs / 100) } };
});
const stretched = (entries: readonly LogEntry[], by: number): LogEntry[] =>
  entries.map((e) => ({ ...e, tUs: Math.round(e.tUs * by) }));

describe('the device’s clock beside the computer’s', () => {
  it('a run that is drawn out or together is remarked, and one of a slow crystal is not', () => {
    expect(remarksOf(samples)).toEqual([]);
    expect(remarksOf(stretched(samples, 1.002))).toEqual([]);
    expect(remarksOf(stretched(samples, 2))).toMatchObject([{ r: 'clock-apart', what: 'device' }]);
    const [half] = remarksOf(stretched(samples, 0.5));
    expect(half!.seconds).toBeGreaterThan(55);
    expect(half!.seconds).toBeLessThan(65);
  });

  it('a piece that was cut out is told with its place, and a line that waits and catches up is not', () => {
    const late = (seconds: number, untilUs: number) =>
      samples.flatMap((e): LogEntry[] => {
        if (e.l !== 'frame' || e.frame.t !== 'S') return [e];
        const isLate = e.tUs >= 50e6 && e.tUs < untilUs;
        return [{ ...e, tUs: e.tUs + (isLate ? seconds * 1e6 : 0) }];
      });
    const [step, ...rest] = remarksOf(late(3, Number.POSITIVE_INFINITY));
    expect([step, rest]).toMatchObject([{ r: 'clock-apart', what: 'device-step' }, []]);
    expect(step!.seconds).toBeCloseTo(3, 1);
    expect(step!.tUs! / 1e6).toBeCloseTo(53, 0);
    // It waits for three seconds, and all of it comes at once.
    const waited = samples.map(
      (e): LogEntry => ({ ...e, tUs: e.tUs >= 50e6 && e.tUs < 53e6 ? 53e6 : e.tUs }),
    );
    expect(remarksOf(waited)).toEqual([]);
    expect(remarksOf(late(0.9, Number.POSITIVE_INFINITY))).toEqual([]);
  });

  it('a device that starts anew, whose counter turns over, or that was away, is no wrong clock', () => {
    const again = (from: number, tick: number) =>
      samples.map((e): LogEntry => {
        if (e.l !== 'frame' || e.frame.t !== 'S') return e;
        return { ...e, tUs: e.tUs + from, frame: { ...e.frame, tick: (e.frame.tick + tick) % 2 ** 32 } };
      });
    expect(remarksOf([...again(0, 5e6), ...again(500e6, 0)])).toEqual([]);
    expect(remarksOf(again(0, 2 ** 32 - 600_000))).toEqual([]);
    const gap = { n: 'gap', reason: 'clock', fromUs: 120e6, lost: 0 } as const;
    const away: LogEntry = { l: 'notice', tUs: 400e6, notice: gap as never };
    expect(remarksOf([...again(0, 0), away, ...again(400e6, 1.2e6)], 6000)).toEqual([]);
  });
});

describe('times that others say', () => {
  const at = 1.77e12;
  const manifest = { openedUtcMs: at, endedUtcMs: at + 3.6e6, sealedUtcMs: at + 4e6 } as Manifest;
  const told = (more: Partial<Witnessed>) =>
    apartFromWitnesses(manifest, {
      openedUtcMs: at,
      endedUtcMs: at + 3.6e6,
      sealedUtcMs: at + 4e6,
      notBefore: [{ fingerprint: null, utcMs: at - 1000 }],
      notAfter: [{ fingerprint: null, utcMs: at + 5e6 }],
      ...more,
    } as Witnessed).map((r) => [r.what, r.seconds]);

  it('are remarked where they are others by more than clocks differ', () => {
    expect(told({})).toEqual([]);
    expect(told({ openedUtcMs: at + 60_000, sealedUtcMs: at + 9e8 })).toEqual([]);
    expect(told({ openedUtcMs: at + 43_200_000 })).toEqual([['opened', 43_200]]);
    expect(told({ endedUtcMs: at })).toEqual([['ended', 3600]]);
    expect(told({ sealedUtcMs: at })).toEqual([['sealed', 4000]]);
    expect(told({ notBefore: [{ fingerprint: null, utcMs: at + 7.2e6 }] })).toEqual([['not-before', 7200]]);
    expect(told({ notAfter: [{ fingerprint: null, utcMs: at }] })).toEqual([['not-after', 4000]]);
    expect(told({ openedUtcMs: null, endedUtcMs: null, sealedUtcMs: null })).toEqual([]);
  });
});
