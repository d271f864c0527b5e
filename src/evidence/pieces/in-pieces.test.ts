import { beforeAll, describe, expect, it } from 'vitest';
import { fileOf } from '../../engine/run-list.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { joinBytes } from '../../record/bytes.ts';
import type { LogEntry, LogHead } from '../../record/log.ts';
import { scanPages } from '../../record/page-scanner.ts';
import { statePages } from '../../record/state-pages.ts';
import { HEAD } from '../../record/testing/arbitrary.ts';
import { JOB, newSigner } from '../../record/testing/sealing.ts';
import { zipBytes } from '../../record/testing/zips.ts';
import { createPageWriter } from '../../record/writer.ts';
import { readZip } from '../../record/zip-reader.ts';
import { ENGINE } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { longer, type State, statesOf, verifyingInPieces, withStates } from '../testing/in-pieces.ts';
import { createInsider, type Forgery } from '../testing/insider.ts';
import { createOffice, JOB_ID } from '../testing/office.ts';
import { makePiece } from './piece.ts';

let insider: ReturnType<typeof createInsider>;
let states: readonly string[];
let head: LogHead;
/** A run of eleven minutes with two states in its pages. */
let genuine: Uint8Array;

const asIs = { events: (list: readonly WatchEvent[]) => list };

async function pagesOf(file: Uint8Array): Promise<Uint8Array> {
  const { start, size } = (await readZip(bytesSource(file))).entries.find((e) => e.name === 'pages.bin')!;
  return file.slice(start, start + size);
}

beforeAll(async () => {
  const office = createOffice();
  const pages = await office.files.readAll(fileOf(await office.record({ holdS: 5 })));
  const signer = await newSigner();
  const papers = { ...JOB, jobId: JOB_ID };
  const short = createInsider(pages, signer, papers);
  const held = short.entries.findIndex(
    (e) => e.l === 'command' && e.command.c === 'stage' && e.command.to === 'hold',
  );
  const samples = short.entries.slice(0, held).filter((e) => e.l === 'frame' && e.frame.t === 'S').length;
  const long = await pagesOf(await short.forge({ entry: longer(33_000, samples + 20) }));
  insider = createInsider(long, signer, papers);
  const [first] = scanPages(long);
  head = first?.kind === 'page' ? first.page.head! : HEAD;
  states = statesOf(head, insider.entries);
  genuine = await insider.forge({ entry: withStates(states), ...asIs });
}, 120_000);

/** States of the run changed, and all else made to follow and signed. */
const forged = (
  change: (state: State, n: number) => readonly LogEntry[],
  more: Omit<Forgery, 'entry'> = {},
) => insider.forge({ entry: withStates(states, change), ...asIs, ...more });

async function inPieces(file: Uint8Array, ask?: Parameters<typeof verifyingInPieces>[1]) {
  const pieces = verifyingInPieces(file, ask);
  const v = await insider.verify(file, pieces.options);
  return { v, ...pieces };
}

/** The same verdict and findings whether or not there are other workers. */
async function bothWays(file: Uint8Array) {
  const { v, asked, here } = await inPieces(file);
  const alone = await insider.verify(file);
  expect([v.verdict, v.findings, v.remarks]).toEqual([alone.verdict, alone.findings, alone.remarks]);
  return { v, asked, here };
}

const watchOf = (state: State) => (state.state.run as { watch: Record<string, unknown> }).watch;

// On a busy machine each goes through some ten minutes of readings several times.
describe('a run that is verified in pieces', { timeout: 120_000 }, () => {
  it('is found as it is, nothing of it made where it is verified, and its values are those of making it in one', async () => {
    const { v, asked, here, made } = await inPieces(genuine);
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    expect(asked).toHaveLength(3);
    expect(here).toEqual({ judged: 0, sensed: 0 });
    const alone = verifyingInPieces(genuine, () => Promise.reject(new Error('no worker')));
    expect((await insider.verify(genuine, alone.options)).verdict).toBe('valid');
    expect(alone.here).toEqual({ judged: 1, sensed: 1 });
    const [mine, theirs] = [made.values()!, alone.made.values()!];
    expect(mine.peakBar).toBe(theirs.peakBar);
    expect(mine.window(0, 1e4, 400)).toEqual(theirs.window(0, 1e4, 400));
  });

  it('with a state changed by hand is judged on from the piece before, and where that stands is said', async () => {
    const file = await forged((state, n) => {
      if (n === 0)
        Object.assign(watchOf(state), { stages: { ...(watchOf(state).stages as object), stage: 'done' } });
      return [state];
    });
    const { v, asked, here } = await bothWays(file);
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    const { tUs } = JSON.parse(states[0]!) as State;
    expect(v.remarks[0]).toEqual({ r: 'states-apart', count: 1, page: expect.any(Number), tUs });
    expect(here.judged).toBe(0);
    expect(asked.filter((o) => o.patient)).toHaveLength(1);
  });

  it('in which a state is missing is the same run, in fewer pieces', async () => {
    const { v, asked } = await inPieces(await forged((state, n) => (n === 0 ? [] : [state])));
    expect([v.verdict, v.findings]).toEqual(['valid', []]);
    expect(asked).toHaveLength(states.length);
  });

  it('with the state of another run, or of another time, is not judged from it', async () => {
    const other = await forged((state, n) => {
      if (n === 0) Object.assign(state.state.run, { head: { ...head, runId: 'other' } });
      return [state];
    });
    expect((await inPieces(other)).v.remarks[0]).toMatchObject({ r: 'states-apart', count: 1 });
    let kept: State | null = null;
    const late = await forged((state, n) => {
      kept ??= state;
      return n === 1 ? [{ ...kept!, tUs: state.tUs }] : [state];
    });
    expect((await inPieces(late)).v.remarks[0]).toMatchObject({ r: 'states-apart', count: 1 });
  });

  it('whose state leads past what happened is changed, though each piece by itself follows from its own', async () => {
    // The signer leaves out what was judged behind the first state, and writes a state of a run that was over by then.
    let fromUs = 0;
    const file = await forged(
      (state, n) => {
        if (n !== 0) return [state];
        fromUs = state.tUs;
        const stages = { ...(watchOf(state).stages as object), stage: 'done' };
        Object.assign(watchOf(state), { stages, hold: null, alarms: { active: [] } });
        return [state];
      },
      { events: (list) => list.filter((e) => e.tUs <= fromUs) },
    );
    const { v } = await bothWays(file);
    expect(v.verdict).toBe('changed');
    expect(v.findings.map((f) => f.f)).toEqual(['judgement']);
    expect(v.remarks[0]).toMatchObject({ r: 'states-apart', count: 1 });
  });

  it('with all of its states of somebody’s making costs no more than going through it twice', async () => {
    const file = await forged((state) => [{ ...state, state: { ...state.state, run: { nowUs: 1e300 } } }]);
    const { v, asked, here } = await inPieces(file);
    expect([v.verdict, v.remarks[0]]).toMatchObject(['valid', { r: 'states-apart', count: states.length }]);
    expect(asked.filter((o) => o.patient)).toHaveLength(1);
    expect(here.judged).toBe(0);
  });

  it('with states where none belongs is not begun in the middle', async () => {
    // One behind each of ten samples.
    const one = withStates(states);
    let many: LogEntry[] = [];
    const file = await insider.forge({
      entry: (e) => {
        const [entry, found] = one(e);
        if (found !== undefined) many = Array.from({ length: 10 }, () => found);
        const state = many.pop();
        return state === undefined ? [entry!] : [entry!, { ...state, tUs: e.tUs }];
      },
      ...asIs,
    });
    const { v, asked } = await inPieces(file);
    expect(asked).toEqual([]);
    expect(v.remarks[0]).toMatchObject({ r: 'states-apart' });
  });

  it('whose trace was written otherwise is found as it is where it is made in one', async () => {
    const { entries } = await readZip(bytesSource(genuine));
    const members = entries.map(({ name, start, size }) => ({
      name,
      bytes: genuine.slice(start, start + size),
    }));
    for (const name of ['trace.csv', 'trace.parquet']) {
      const changed = members.map((m) => {
        const bytes = m.bytes.slice();
        if (m.name === name) bytes[Math.floor(bytes.length * 0.6)]! ^= 1;
        return { name: m.name, bytes };
      });
      const { v, here } = await inPieces(await insider.summedAnew(changed));
      expect(v.findings.length + v.remarks.filter((r) => r.r === 'derived-otherwise').length).toBeGreaterThan(
        0,
      );
      expect(here).toEqual({ judged: 0, sensed: 1 });
    }
    // A row less in the middle.
    const less = (b: Uint8Array) => {
      const at = b.indexOf(10, 4e5) + 1;
      return joinBytes([b.slice(0, at), b.slice(b.indexOf(10, at) + 1)]);
    };
    const changed = members.map((m) => (m.name === 'trace.csv' ? { ...m, bytes: less(m.bytes) } : m));
    expect((await inPieces(await insider.summedAnew(changed))).v.verdict).toBe('changed');
  });
});

describe('a piece', () => {
  const whole = async (file: Uint8Array) => {
    const { entries } = await readZip(bytesSource(file));
    const { start, size } = entries.find((e) => e.name === 'pages.bin')!;
    const order = { pages: { start, size }, from: 0, to: size, patient: true, trace: null };
    return makePiece(bytesSource(file), order, async () => undefined);
  };

  it('is made of sound pages of this engine alone, and of no run of years', async () => {
    expect((await whole(genuine)).events).not.toEqual([]);
    const bad = genuine.slice();
    bad[Buffer.from(genuine).indexOf('Sbarpage') + 400]! ^= 1;
    await expect(whole(bad)).rejects.toThrow('damaged');
    await expect(whole(await insider.forge({ head: { engine: ENGINE + 1 }, ...asIs }))).rejects.toThrow(
      'engine',
    );
    // Two hundred years between two pages, or seven days in which nothing was read: nobody goes through them tick by tick.
    for (const tUs of [6.3e15, 7 * 86_400e6]) {
      const writer = createPageWriter({ ...HEAD, engine: ENGINE });
      const note = { c: 'note', text: 'x' } as const;
      writer.addEntry({ l: 'command', tUs: 0, command: note });
      const first = writer.cut(1)!;
      writer.addEntry({ l: 'command', tUs, command: note });
      const pages = joinBytes([first, writer.finish(2, 'ended')]);
      await expect(whole(zipBytes([{ name: 'pages.bin', bytes: pages }]))).rejects.toThrow('longer');
      expect(await statePages(bytesSource(pages))).toBeNull();
    }
  });
});
