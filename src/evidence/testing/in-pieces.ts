/** Pieces of a run as other workers would make them, in this one. */
import { createRun, stepRun } from '../../engine/core.ts';
import { keptState } from '../../engine/kept-state.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { type LogEntry, type LogHead, STATE_STEP } from '../../record/log.ts';
import type { VerifyOptions } from '../../record/verify.ts';
import { english } from '../../words/testing/english.ts';
import { deriving } from '../deriving.ts';
import { judge } from '../judge.ts';
import { inPieces } from '../pieces/in-pieces.ts';
import type { PieceOrder } from '../pieces/order.ts';
import { makePiece } from '../pieces/piece.ts';

/** So many samples more, in the place of one: the line stands still but for its noise. */
export function longer(samples: number, at: number): (entry: LogEntry) => readonly LogEntry[] {
  const STEP_US = 20_000;
  let seen = 0;
  const later = (entry: LogEntry, k: number): LogEntry => {
    const moved = { ...entry, tUs: entry.tUs + k * STEP_US };
    if (moved.l !== 'frame' || moved.frame.t !== 'S') return moved;
    const { frame } = moved;
    const noise = k < samples ? ((k * 7919) % 13) - 6 : 0;
    const counts = frame.counts.map((c) => (c === null ? null : c + noise));
    return {
      ...moved,
      frame: { ...frame, seq: frame.seq + k, tick: frame.tick + (k * STEP_US) / 100, counts },
    };
  };
  return (entry) => {
    const isSample = entry.l === 'frame' && entry.frame.t === 'S';
    if (seen < at && isSample) seen++;
    if (seen < at) return [entry];
    if (!isSample || seen > at) return [later(entry, samples)];
    seen++;
    return Array.from({ length: samples + 1 }, (_, k) => later(entry, k));
  };
}

export type State = Extract<LogEntry, { l: 'state' }>;

/** The states that are due in a run, as text: each time they are made anew. */
export function statesOf(head: LogHead, entries: readonly LogEntry[]): readonly string[] {
  const run = createRun(head);
  const states: string[] = [];
  let samples = 0;
  for (const entry of entries) {
    stepRun(run, entry, { event: () => undefined });
    if (entry.l !== 'frame' || entry.frame.t !== 'S' || ++samples % STATE_STEP !== 0) continue;
    states.push(JSON.stringify({ l: 'state', tUs: entry.tUs, state: keptState(run, samples) }));
  }
  return states;
}

/** Puts the states in behind their samples. */
export function withStates(
  states: readonly string[],
  change: (state: State, n: number) => readonly LogEntry[] = (s) => [s],
) {
  let samples = 0;
  return (entry: LogEntry): readonly LogEntry[] => {
    if (entry.l !== 'frame' || entry.frame.t !== 'S' || ++samples % STATE_STEP !== 0) return [entry];
    const n = samples / STATE_STEP - 1;
    return [entry, ...change(JSON.parse(states[n]!) as State, n)];
  };
}

/** What was asked of whom, and the options of verifying a file in pieces. */
export interface InPieces {
  readonly options: Pick<VerifyOptions, 'judge' | 'sense' | 'words' | 'extras'>;
  readonly asked: PieceOrder[];
  /** Times that the run was judged, and sensed, by whoever verifies. */
  readonly here: { judged: number; sensed: number };
  readonly made: ReturnType<typeof deriving>;
}

/** @param ask what another worker does, where it is not to make the piece */
export function verifyingInPieces(file: Uint8Array, ask?: (order: PieceOrder) => Promise<never>): InPieces {
  const asked: PieceOrder[] = [];
  const here = { judged: 0, sensed: 0 };
  const made = deriving(async () => english);
  const there = inPieces({
    file: '',
    source: bytesSource(file),
    pool: {
      ask: async (request) => {
        if (request.q !== 'piece') throw new Error('no piece');
        const { order } = request;
        asked.push(order);
        if (ask !== undefined) return ask(order);
        // As it comes out of another worker.
        return structuredClone(await makePiece(bytesSource(file), order, async () => undefined)) as never;
      },
    },
    least: 1,
    progress: () => undefined,
    ...made.elsewhere,
  });
  return {
    asked,
    here,
    made,
    options: {
      ...made,
      sense: (...args) => {
        here.sensed++;
        return made.sense(...args);
      },
      judge: {
        engine: judge.engine,
        run: (...args) => {
          here.judged++;
          return judge.run(...args);
        },
        elsewhere: () => there,
      },
    },
  };
}
