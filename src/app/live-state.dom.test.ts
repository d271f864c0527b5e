import { createRoot } from 'solid-js';
import { describe, expect, it } from 'vitest';
import type { FromEngine } from '../engine/messages.ts';
import type { Setup } from '../job/setup.ts';
import type { Stage } from '../watch/codes.ts';
import { createLiveState } from './live-state.ts';

type Moment = Extract<FromEngine, { m: 'moment' }>;

function moment(part: {
  readonly tUs: number;
  readonly firstUs?: number | null;
  readonly runId?: string | null;
  readonly resumed?: boolean;
  readonly stage?: Stage;
  readonly stageSinceUs?: number;
  readonly s?: readonly number[];
}): Moment {
  const s = part.s ?? [];
  return {
    m: 'moment',
    view: {
      tUs: part.tUs,
      firstUs: part.firstUs ?? null,
      stage: part.stage ?? 'prepare',
      attempt: 1,
      stageSinceUs: part.stageSinceUs ?? 0,
    },
    link: null,
    run: part.runId == null ? null : { runId: part.runId, resumed: part.resumed ?? false },
    rig: null,
    fresh: { s: Float64Array.from(s), bar: Float32Array.from(s.map(() => 1)), second: null, temps: [] },
  } as unknown as Moment;
}

const none = new Map<number, string | null>();
const within = <T>(work: (live: ReturnType<typeof createLiveState>) => T) =>
  createRoot((dispose) => {
    const result = work(createLiveState());
    dispose();
    return result;
  });

describe('live state', () => {
  it('stages become spans on the axis of the first sample', () => {
    within((live) => {
      live.take(moment({ tUs: 3e6, firstUs: 2e6, runId: 'a' }));
      live.take(moment({ tUs: 9e6, firstUs: 2e6, runId: 'a', stage: 'inflate', stageSinceUs: 8e6 }));
      expect(live.stages()).toEqual([
        { stage: 'prepare', attempt: 1, fromS: 0, toS: 6 },
        { stage: 'inflate', attempt: 1, fromS: 6, toS: null },
      ]);
      expect(live.nowS()).toBe(7);
    });
  });

  it('another run begins an empty trace: its seconds are not those of the one before', () => {
    within((live) => {
      live.take(moment({ tUs: 5e6, firstUs: 0, s: [4.9, 5] }));
      expect(live.buffer.lastS).toBeGreaterThan(4);
      live.take(moment({ tUs: 1e6, firstUs: 0, runId: 'b', s: [0.5] }));
      expect(
        live.buffer.window(0, 10, 100, none).series[0]!.max.filter((v) => !Number.isNaN(v)),
      ).toHaveLength(1);
      expect(live.stages()).toHaveLength(1);
    });
  });

  it('a resumed run keeps what was taken over from its record', () => {
    within((live) => {
      live.take(moment({ tUs: 1e6, firstUs: 0 }));
      live.buffer.append({ s: Float64Array.of(0.3), bar: Float32Array.of(2), second: null, temps: [] });
      live.take(moment({ tUs: 60e6, firstUs: 0, runId: 'c', resumed: true, s: [60] }));
      const bars = live.buffer.window(0, 100, 2000, none).series[0]!.max.filter((v) => !Number.isNaN(v));
      expect([...bars]).toEqual([2, 1]);
    });
  });

  it('of a long run the newest events are kept, and which limits were in force', () => {
    within((live) => {
      live.take(moment({ tUs: 1e6, firstUs: 0, runId: 'a' }));
      const event = (e: string, tUs: number) => ({ m: 'event', event: { e, tUs } }) as unknown as FromEngine;
      live.take(event('limits', 1));
      for (let i = 2; i < 900; i++) live.take(event('alarm', i));
      expect(live.events()[0]).toEqual({ e: 'limits', tUs: 1 });
      expect(live.events().at(-1)?.tUs).toBe(899);
      expect(live.events().length).toBeLessThan(450);
    });
  });

  it('the Setup of a run goes with it', () => {
    within((live) => {
      live.setSetup({ number: 1 } as Setup);
      live.take(moment({ tUs: 1e6, firstUs: 0, runId: 'a' }));
      expect(live.setup()?.number).toBe(1);
      live.take(moment({ tUs: 1e6, firstUs: 0 }));
      expect(live.setup()).toBeNull();
    });
  });

  it('what a moment does not change wakes nothing: its parts are those of the moment before', () => {
    within((live) => {
      live.take(moment({ tUs: 1e6, firstUs: 0, runId: 'a' }));
      const [run, view] = [live.run(), live.view()];
      live.take(moment({ tUs: 2e6, firstUs: 0, runId: 'a' }));
      expect(live.run()).toBe(run);
      expect(live.view()).not.toBe(view);
      expect(live.view()?.tUs).toBe(2e6);
      live.take(moment({ tUs: 2e6, firstUs: 0, runId: 'b' }));
      expect(live.run()?.runId).toBe('b');
    });
  });

  it('silence is told and taken back', () => {
    within((live) => {
      live.setSilent(true);
      expect(live.silent()).toBe(true);
      live.setSilent(false);
      expect(live.silent()).toBe(false);
    });
  });
});
