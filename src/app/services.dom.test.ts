import { createEffect, createRoot } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { EngineClient } from '../engine/client.ts';
import type { EngineNews } from '../engine/messages.ts';
import type { WatchView } from '../watch/view.ts';
import { PATTERNS } from './patterns.ts';
import { type AppServices, createServices } from './services.ts';
import { Tones } from './testing/tones.ts';

type Moment = Extract<EngineNews, { m: 'moment' }>;

function moment(alarms: readonly { readonly alarm: string; readonly priority: string }[], bar = 1): Moment {
  return {
    m: 'moment',
    view: {
      tUs: 1e6,
      firstUs: 0,
      stage: 'inflate',
      attempt: 1,
      stageSinceUs: 0,
      bar,
      alarms: alarms.map((a) => ({ ...a, state: 'unacknowledged', occurrence: 1, sinceUs: 0, values: {} })),
    },
    link: { state: 'streaming' },
    run: null,
    rig: null,
    fresh: { s: new Float64Array(0), bar: new Float32Array(0), temps: [] },
  } as unknown as Moment;
}
const CEILING = [{ alarm: 'ceiling', priority: 'urgent' }];

/** The page's services over an engine that says what the test lets it say. */
function bench(drawn: (view: WatchView) => void) {
  const asked: string[] = [];
  let say: (news: EngineNews) => void = () => {};
  let fallSilent: (silent: boolean) => void = () => {};
  const engine = {
    ask: ({ q }: { q: string }) => {
      asked.push(q);
      return new Promise(() => undefined);
    },
    on: (listener: typeof say) => {
      say = listener;
      return () => {};
    },
    silent: false,
    onSilence: (listener: typeof fallSilent) => {
      fallSilent = listener;
      return () => {};
    },
    close() {},
  };
  let app!: AppServices;
  let end!: () => void;
  createRoot((dispose) => {
    end = dispose;
    app = createServices(
      { language: 'en', locale: 'en', decimalMark: 'point' } as never,
      engine as unknown as EngineClient,
    );
    createEffect(() => {
      const view = app.live.view();
      if (view !== null) drawn(view);
    });
  });
  dispatchEvent(new Event('pointerdown'));
  return {
    app,
    asked,
    end,
    say: (news: EngineNews) => say(news),
    silence(silent: boolean) {
      engine.silent = silent;
      fallSilent(silent);
    },
  };
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('AudioContext', Tones);
  vi.stubGlobal(
    'Worker',
    class {
      addEventListener() {}
      postMessage() {}
      terminate() {}
    },
  );
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
  Tones.reset();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

it('a picture that cannot be drawn silences no alarm, is itself told and heard, and the page goes on', () => {
  const b = bench((view) => {
    if (view.bar === 2) throw new Error('a mark failed');
  });
  b.say(moment([], 1));
  expect(b.app.faults.now()).toBeNull();
  for (let i = 0; i < 30; i++) expect(() => b.say(moment(CEILING, 2))).not.toThrow();
  expect(Tones.started).toHaveLength(9);
  expect(b.app.faults.now()).toEqual({ detail: 'a mark failed', seen: false });
  // The alarm is over; the fault of the page sounds on by itself until somebody has seen it.
  Tones.started = [];
  b.say(moment([], 2));
  expect(Tones.started).toHaveLength(2);
  b.app.faults.see();
  expect(Tones.stopped).toBeGreaterThan(0);
  Tones.started = [];
  for (let i = 0; i < 30; i++) b.say(moment([], 2));
  vi.advanceTimersByTime(30_000);
  expect(Tones.started).toHaveLength(0);
  expect(b.app.faults.now()?.seen).toBe(true);
  b.say(moment(CEILING, 3));
  expect(b.app.live.view()?.bar).toBe(3);
  expect(Tones.started).toHaveLength(9);
  b.end();
});

it('an error that a press or a timer of the page throws is told too; a notice of the browser is none', () => {
  const b = bench(() => undefined);
  dispatchEvent(new ErrorEvent('error', { message: 'a size was not settled within a frame' }));
  expect(b.app.faults.now()).toBeNull();
  dispatchEvent(new ErrorEvent('error', { error: new Error('a press failed') }));
  expect(b.app.faults.now()?.detail).toBe('a press failed');
  b.end();
});

it('an engine that is not heard sounds though its mark cannot be drawn', () => {
  const b = bench(() => undefined);
  createRoot(() =>
    createEffect(() => {
      if (b.app.live.silent()) throw new Error('the mark failed');
    }),
  );
  b.silence(true);
  vi.advanceTimersByTime(400);
  expect(Tones.started).toHaveLength(9);
  expect(b.app.faults.now()?.detail).toBe('the mark failed');
  b.silence(false);
  b.end();
});

it('cure time met is called by a sound of its own, once', () => {
  const b = bench(() => undefined);
  b.say({ m: 'event', event: { tUs: 1, e: 'cure-met', progressLow: 1, equivalentAgeMin: 60 } });
  expect(Tones.started).toHaveLength(PATTERNS.reached.pulses.length);
  vi.advanceTimersByTime(30_000);
  expect(Tones.started).toHaveLength(PATTERNS.reached.pulses.length);
  b.end();
});

it('saved runs are read when a run begins, not with each of its moments', () => {
  const { asked, say, end } = bench(() => {});
  const run = (bytes: number) => ({ ...moment([]), run: { runId: 'a', bytes } }) as unknown as Moment;
  const before = asked.filter((q) => q === 'runs').length;
  for (let i = 0; i < 30; i++) say(run(i));
  expect(asked.filter((q) => q === 'runs')).toHaveLength(before + 1);
  end();
});
