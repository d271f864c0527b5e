import { createSignal } from 'solid-js';
import type { Request, RunView } from '../../../engine/messages.ts';
import { defaultSettings } from '../../../job/settings-defaults.ts';
import type { Command } from '../../../watch/inputs.ts';
import type { WatchView } from '../../../watch/view.ts';
import { LiveBuffer } from '../../../widgets/live-buffer.ts';
import { METRIC } from '../../../words/format.ts';
import type { Services } from '../../context.ts';
import { sceneOf } from './scene.ts';

export interface LiveBench {
  readonly services: Services;
  /** Commands that keys sent, oldest first. */
  readonly commands: readonly Command[];
  /** The next moment: as the one before, but for what is said. */
  show(part: Partial<WatchView>): void;
  setSilent(silent: boolean): void;
  setRun(run: Partial<RunView> | null): void;
}

/** A run on a device that sends, with an engine that shows what a test says and takes every command. */
export function liveBench(first: Partial<WatchView> = {}): LiveBench {
  const [view, setView] = createSignal<WatchView>(sceneOf(first).view);
  const [silent, setSilent] = createSignal(false);
  const [run, setRun] = createSignal<Partial<RunView> | null>({ runId: 'r', practice: false });
  const commands: Command[] = [];
  const services = {
    live: {
      view,
      link: () => ({
        state: 'streaming',
        error: null,
        kind: 'serial',
        channels: [],
        other: null,
        rateHz: 50,
      }),
      run,
      rig: () => null,
      events: () => [],
      stages: () => [],
      silent,
      nowS: () => 100,
      version: () => 0,
      buffer: new LiveBuffer(),
      left: () => [],
      setup: () => null,
      setSetup: () => undefined,
    },
    ask: async (request: Request) => {
      if (request.q === 'command') commands.push(request.command);
      return request.q === 'documents' ? [] : null;
    },
    settings: defaultSettings,
    units: () => METRIC,
    nowMs: () => Date.UTC(2026, 0, 5, 12),
    openRuns: () => [],
    reconnecting: () => null,
    sensorRuns: () => [],
    serial: { supported: true, choose: async () => null },
    sound: { test: () => 'heard', state: () => null, play: () => undefined, answer: () => undefined },
    soundBlocked: () => null,
    say: () => undefined,
    fail: (error: unknown) => {
      throw error;
    },
  } as unknown as Services;
  return {
    services,
    commands,
    show: (part) => setView((before) => ({ ...before, ...part })),
    setSilent,
    setRun,
  };
}
