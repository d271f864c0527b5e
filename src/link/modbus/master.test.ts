import { describe, expect, it } from 'vitest';
import type { RegisterMap } from '../../job/reading-map.ts';
import { busMap } from '../../job/testing/maps.ts';
import { withCrc } from './crc16.ts';
import { requestBytes } from './frames.ts';
import { createMaster } from './master.ts';

const MS = 1000;
const PRESSURE = withCrc([1, 3, 6, 0x3f, 0xc0, 0, 0, 0, 0]);
const TEMPERATURE = withCrc([2, 4, 2, 0x00, 0xeb]);

/** A master with hands: time goes on where it waits; what it sends goes to `unit`, whose answer comes 5 ms later. */
function bench(map: RegisterMap, unit: (request: Uint8Array, nth: number) => Uint8Array | null) {
  const rounds: string[] = [];
  const stray: string[] = [];
  const units: string[] = [];
  const sent: { readonly atUs: number; readonly to: number }[] = [];
  const master = createMaster(map, {
    round: (parts, main) => rounds.push(`${main ? 'P' : '-'}${parts.map((p) => p.ask).join('')}`),
    stray: (why, bytes) => stray.push(`${why} ${bytes.length}`),
    unit: (ask, told) => units.push(`${ask.address} ${typeof told === 'string' ? told : told.a}`),
  });
  let nowUs = 0;
  const coming: { readonly atUs: number; readonly bytes: Uint8Array }[] = [];
  function come(afterMs: number, bytes: Uint8Array): void {
    coming.push({ atUs: nowUs + afterMs * MS, bytes });
    coming.sort((a, b) => a.atUs - b.atUs);
  }
  function run(ms: number): void {
    const endUs = nowUs + ms * MS;
    for (;;) {
      const step = master.next(nowUs);
      if ('send' in step) {
        sent.push({ atUs: nowUs, to: step.send[0]! });
        const answer = unit(step.send, sent.length);
        if (answer !== null) come(5, answer);
        continue;
      }
      const first = coming[0];
      const at = Math.min(step.untilUs, first?.atUs ?? Number.POSITIVE_INFINITY);
      if (at > endUs) break;
      nowUs = Math.max(nowUs, at);
      if (first !== undefined && first.atUs <= nowUs) {
        coming.shift();
        master.take(first.bytes, nowUs);
      }
    }
    nowUs = endUs;
  }
  return { master, run, come, rounds, stray, units, sent };
}

const answering = (request: Uint8Array): Uint8Array => (request[0] === 1 ? PRESSURE : TEMPERATURE);

describe('a master and its units', () => {
  it('asks for pressure at its pace, the other unit in between when it is due', () => {
    const { run, rounds, sent, stray } = bench(busMap(), answering);
    run(1000);
    // Every 50 ms; the temperature every 500 ms.
    expect(rounds.length).toBe(20);
    expect(sent.filter((s) => s.to === 2).length).toBe(2);
    expect(rounds.slice(0, 3)).toEqual(['P0', 'P10', 'P0']);
    expect(stray).toEqual([]);
  });

  it('keeps the silence before each request', () => {
    const { run, sent } = bench(busMap({ baud: 9600 }), answering);
    run(2000);
    const answersUs = 5 * MS;
    for (let i = 1; i < sent.length; i++)
      expect(sent[i]!.atUs - sent[i - 1]!.atUs - answersUs).toBeGreaterThanOrEqual(4010);
  });

  it('asks seldomer where it is told to', () => {
    const { master, run, rounds } = bench(busMap(), answering);
    master.pace(10);
    run(1000);
    expect(rounds.length).toBe(10);
  });

  it('a dead unit is asked seldom and holds the pressure up for one answer’s time at most', () => {
    const { run, rounds, units, sent } = bench(busMap(), (r) => (r[0] === 1 ? PRESSURE : null));
    run(10_000);
    expect(units.filter((u) => u === '2 silent').length).toBeGreaterThan(2);
    const pressures = sent.filter((s) => s.to === 1).map((s) => s.atUs);
    // Once asked for and retried, 100 ms each with half of it for the bus to be quiet; later once in two seconds.
    const gaps = pressures.slice(1).map((t, i) => t - pressures[i]!);
    expect(Math.max(...gaps.slice(10))).toBeLessThan(180 * MS);
    expect(rounds.length).toBeGreaterThan(170);
  });

  it('a silent pressure is a round without it; what the others said is not kept back', () => {
    const { run, rounds, units } = bench(busMap({ retries: 0 }), (r) => (r[0] === 2 ? TEMPERATURE : null));
    run(1000);
    expect(rounds.slice(0, 2)).toEqual(['-', '-1']);
    expect(units).toContain('1 silent');
  });

  it('an exception is an answer: told, and not asked again at once', () => {
    const { run, rounds, units, sent } = bench(busMap({ retries: 3 }), (r) =>
      r[0] === 1 ? withCrc([1, 0x83, 2]) : TEMPERATURE,
    );
    run(490);
    expect(units).toContain('1 exception');
    expect(rounds.every((r) => r.startsWith('P'))).toBe(true);
    expect(sent.filter((s) => s.to === 1).length).toBe(10);
  });

  it('garbled answers are asked for again, and kept as what they were', () => {
    const broken = PRESSURE.map((b, i) => (i === 4 ? b ^ 1 : b));
    const { run, rounds, stray } = bench(busMap(), (r, n) => (n === 1 ? broken : answering(r)));
    run(500);
    expect(stray).toEqual(['partial 11']);
    expect(rounds[0]).toBe('P0');
  });

  it('half a frame is given up with the time for its answer', () => {
    const { run, stray, rounds } = bench(busMap(), (r, n) =>
      n === 1 ? PRESSURE.subarray(0, 6) : answering(r),
    );
    run(500);
    expect(stray).toEqual(['partial 6']);
    expect(rounds[0]).toBe('P0');
  });

  it('a late answer is not taken for that of the next request', () => {
    const { run, come, stray, rounds, sent } = bench(busMap({ retries: 0 }), (r, n) =>
      n === 1 ? null : answering(r),
    );
    run(1);
    // 10 ms after its time was over, in the quiet time before the next request.
    come(120, PRESSURE);
    run(500);
    expect(stray).toEqual(['not-asked 11']);
    expect(rounds[0]).toBe('-');
    expect(rounds.slice(1).every((r) => r.startsWith('P'))).toBe(true);
    expect(sent[1]!.atUs).toBeGreaterThan(121 * MS);
  });

  it('another unit that answers in the place of the one asked is no answer', () => {
    const { run, stray, rounds } = bench(busMap({ retries: 0 }), (r, n) =>
      n === 1 ? withCrc([3, 3, 6, 0x40, 0, 0, 0, 0, 0]) : answering(r),
    );
    run(500);
    expect(stray).toEqual(['other-unit 11']);
    expect(rounds[0]).toBe('-');
  });

  it('two masters: the requests of the other one are seen, and answers to it are never ours', () => {
    const { run, come, stray, rounds } = bench(busMap(), answering);
    for (let k = 0; k < 5; k++) {
      come(20 + k * 50, requestBytes({ address: 1, fn: 3, register: 40, count: 1 }));
      come(24 + k * 50, withCrc([1, 3, 2, 0x12, 0x34]));
    }
    run(400);
    expect(stray.filter((s) => s === 'other-master 8').length).toBe(5);
    expect(stray.filter((s) => s === 'not-asked 7').length).toBe(5);
    expect(rounds.every((r) => r.startsWith('P'))).toBe(true);
  });

  it('an answer that comes in pieces is one', () => {
    const { run, come, rounds, stray } = bench(busMap(), (r, n) => {
      if (n > 1) return answering(r);
      for (const [i, b] of PRESSURE.entries()) come(2 + i, Uint8Array.of(b));
      return null;
    });
    run(200);
    expect(rounds[0]).toBe('P0');
    expect(stray).toEqual([]);
  });
});
