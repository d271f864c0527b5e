import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { createRun, type RunSink, stepRun } from '../../src/engine/core.ts';
import { keptState } from '../../src/engine/kept-state.ts';
import { createRecorder } from '../../src/engine/recorder.ts';
import { createWatched } from '../../src/engine/watched.ts';
import { createDecoder } from '../../src/link/decode.ts';
import { encodeFrame } from '../../src/link/encode.ts';
import type { ChannelFrame, DeviceFrame, HelloFrame } from '../../src/link/frames.ts';
import { makeSetup } from '../../src/plan/setup.ts';
import type { LogEntry, LogHead } from '../../src/record/log.ts';
import { runFileNames } from '../../src/record/recovery.ts';
import { createMemoryStore } from '../../src/record/stores/testing/memory.ts';
import { createScenarioDevice } from '../../src/rig/scenarios.ts';
import type { Command } from '../../src/watch/inputs.ts';
import { DEMO } from '../../src/words/testing/demo.ts';
import { cpuMs } from './measure.ts';

/** CPU time of a reading through sensing and watch, µs: in the fill, and in the last minute. */
export interface ReadingCost {
  readonly readings: number;
  readonly fillUs: number;
  readonly lastMinuteUs: number;
  readonly wholeUs: number;
}

/**
 * A whole simulated job stretched over `hours` at `rateHz`, through the engine's own core and recorder into run
 * files in `folder`; a practice run, which is never sealed, unless told otherwise. The CPU time spent in the core and the recorder is measured; the rig and the disk are not in it.
 */
export async function makeLongRun(
  folder: string,
  runId: string,
  hours: number,
  rateHz: number,
  { practice = true } = {},
): Promise<ReadingCost> {
  const store = createMemoryStore();
  const names = runFileNames(runId);
  const head: LogHead = {
    format: 1,
    engine: 1,
    runId,
    // The job whose papers the bench seals with it.
    jobId: practice ? null : 'job-7',
    practice,
    utcMs: 1_760_000_000_000,
    software: 'bench',
  };
  const run = createRun(head);
  const recorder = createRecorder(await store.open(names.pages), head, {
    fault: (code) => {
      if (code !== null) throw new Error(`the store refused: ${code}`);
    },
    state: (samples) => keptState(run, samples),
  });
  const side = { buckets: await store.open(names.buckets), rows: await store.open(names.rows) };
  const watched = createWatched(side);
  const sink: RunSink = {
    event: (event) => {
      recorder.event(event);
      watched.event(event);
    },
    reading: (reading) => watched.reading(reading),
  };
  let spent = 0;
  let slice = { ms: 0, n: 0 };
  const slices: { ms: number; n: number }[] = [];
  const take = (entry: LogEntry) => {
    stepRun(run, entry, sink);
    recorder.entry(entry);
  };

  const device = createScenarioDevice('hands', 3);
  const decoder = createDecoder('device');
  let tUs = 0;
  let batch: DeviceFrame[] = [];
  const drain = () => {
    decoder.push(device.take(), {
      frame: (frame) => batch.push(frame as DeviceFrame),
      stray: (reason, bytes) => take({ l: 'stray', tUs, reason, bytes }),
    });
  };
  const tell = (number: number, command: Parameters<typeof encodeFrame>[0] & { t: 'K' }) =>
    device.receive(encodeFrame({ ...command, number }));
  device.advance(2); // it boots
  tell(1, { t: 'K', number: 1, command: { verb: 'hello' } });
  device.advance(2.1);
  tell(2, { t: 'K', number: 2, command: { verb: 'start', rateHz } });
  device.advance(2.2);
  drain();
  const hello = batch.find((f): f is HelloFrame => f.t === 'H');
  if (hello === undefined) throw new Error('the rig did not say hello');
  const channels = batch.filter((f): f is ChannelFrame => f.t === 'C');
  const { setup } = makeSetup({
    bundle: DEMO,
    settings: null,
    device: { hello, channels },
    number: 1,
    practice,
  });
  take({ l: 'setup', tUs: 0, setup });

  const says = (atS: number, command: Command) => ({ atS, command });
  const script = [
    says(2, { c: 'zero' }),
    says(4, { c: 'stage', to: 'seat' }),
    says(40, { c: 'stage', to: 'inflate' }),
    says(200, { c: 'stage', to: 'hold' }),
  ];
  let scripted = 0;
  const endS = hours * 3600;
  const stepS = 0.1;
  // A stretch of the site first, then the core on all of it: asking for the CPU time costs as much as a reading, so
  // that at least 25 share the question. Whole stretches make a minute.
  const stretch = [5, 15].find((steps) => steps * stepS * rateHz >= 25) ?? 25;
  let waiting: { tUs: number; s: number; frames: DeviceFrame[] }[] = [];
  const digest = () => {
    const t = cpuMs();
    for (const step of waiting) {
      for (const frame of step.frames) take({ l: 'frame', tUs: step.tUs, frame });
      while (scripted < script.length && script[scripted]!.atS <= step.s)
        take({ l: 'command', tUs: step.tUs, command: script[scripted++]!.command });
      slice.n += step.frames.length;
    }
    const ms = cpuMs() - t;
    spent += ms;
    slice.ms += ms;
    waiting = [];
  };
  for (let s = stepS; s < endS; s += stepS) {
    if (Math.abs(s - 5) < stepS / 2) device.hand({ hand: 'valve', open: 0.4 });
    if (Math.abs(s - 190) < stepS / 2) device.hand({ hand: 'valve', open: 0 });
    device.advance(2.2 + s);
    tUs = Math.round(s * 1e6);
    drain();
    waiting.push({ tUs, s, frames: batch });
    batch = [];
    const step = Math.round(s / stepS);
    if (step % stretch === 0) {
      digest();
      recorder.flush(head.utcMs! + s * 1000);
      watched.trace.flush();
    }
    if (step % 600 === 0) {
      slices.push(slice);
      slice = { ms: 0, n: 0 };
    }
  }
  digest();
  take({ l: 'notice', tUs: tUs + 1, notice: { n: 'end' } });
  watched.trace.finish();
  side.buckets.close();
  side.rows.close();
  if (!recorder.end(head.utcMs! + endS * 1000, 'ended')) throw new Error('the run could not be closed');
  for (const name of Object.values(names)) writeFileSync(path.join(folder, name), await store.readAll(name));
  const cost = (part: readonly { ms: number; n: number }[]) =>
    (1000 * part.reduce((sum, x) => sum + x.ms, 0)) / part.reduce((sum, x) => sum + x.n, 0);
  return {
    readings: run.readings,
    // The first minute is the greeting and the seating; the second and the third lie in the fill.
    fillUs: cost(slices.slice(1, 3)),
    lastMinuteUs: cost(slices.slice(-1)),
    wholeUs: (1000 * spent) / run.readings,
  };
}
