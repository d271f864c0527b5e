import { type Accessor, createContext, useContext } from 'solid-js';
import type {
  Answers,
  EngineErrorCode,
  LeftPacker,
  LinkView,
  PortIds,
  Request,
  RigView,
  RunDetail,
  RunSummary,
  RunView,
  SerialChoice,
  TraceWindow,
} from '../engine/messages.ts';
import type { EvidenceAnswers, EvidenceErrorCode, EvidenceRequest } from '../evidence/messages.ts';
import type { SensorRun } from '../job/sensor-check.ts';
import type { SettingsDocument } from '../job/settings-document.ts';
import type { Setup } from '../job/setup.ts';
import type { Wording } from '../job/wording.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { WatchView } from '../watch/view.ts';
import type { StageSpan } from '../widgets/lanes/ribbon.ts';
import type { LiveBuffer } from '../widgets/live-buffer.ts';
import { EVIDENCE_ERROR } from '../words/evidence-errors.ts';
import type { DisplayUnits } from '../words/format.ts';
import { type Advice, ENGINE_ERROR, STORE_CAUSE } from '../words/link.ts';
import type { SoundCode } from '../words/sound.ts';
import type { Route } from './route.ts';

/** The link as it is shown: its counts change with every moment and stand on no screen. */
export type LinkShown = Omit<LinkView, 'frames' | 'strayBytes'>;

/** The moment as the screens see it. Samples stay in the buffer, outside the reactive graph. */
export interface Live {
  readonly view: Accessor<WatchView | null>;
  readonly link: Accessor<LinkShown | null>;
  readonly run: Accessor<RunView | null>;
  readonly rig: Accessor<RigView | null>;
  readonly buffer: LiveBuffer;
  /** Bumped with each moment that changed the buffer. */
  readonly version: Accessor<number>;
  /** Seconds from the first sample, of the newest moment. */
  readonly nowS: Accessor<number>;
  readonly stages: Accessor<readonly StageSpan[]>;
  /** Events of this run, newest last, a few hundred at most. */
  readonly events: Accessor<readonly WatchEvent[]>;
  /** The engine has not been heard for two seconds. */
  readonly silent: Accessor<boolean>;
  /** What runs left behind, as the engine told it last; the open run's is among them. */
  readonly left: Accessor<readonly LeftPacker[]>;
  /** The Setup that the page gave last. */
  readonly setup: Accessor<Setup | null>;
  readonly setSetup: (setup: Setup | null) => void;
}

/** Runs to look at, the open one among them, and what is done with a whole run. */
export interface RunAccess {
  /** @param check reads and checks the whole file of a closed run again */
  detail(runId: string, check?: boolean): Promise<RunDetail>;
  window(runId: string, fromS: number, toS: number, points: number): Promise<TraceWindow>;
  /** The very bytes that the device sent. */
  capture(runId: string): Promise<Blob>;
  /** All pages of the open run, also those that its disk does not take: an input log. */
  openPages(runId: string): Promise<Blob>;
  /** With its seal. */
  remove(runId: string): Promise<void>;
  /** Takes a run up again that was left open. */
  resume(runId: string): Promise<void>;
}

/** What can be heard of the alarms, and what the crew says of it. */
export interface SoundAccess {
  /** Why no alarm is heard: a press is missing, the system gives no sound, the crew did not hear it; null: it sounds. */
  readonly state: Accessor<'press' | 'system' | 'not-heard' | null>;
  /** Once, in a press. */
  play(sound: SoundCode): void;
  /** Whether the test sound was heard today; null: nobody has said. */
  readonly test: Accessor<'heard' | 'not-heard' | null>;
  answer(heard: 'heard' | 'not-heard'): void;
  /** The spoken orders: not wanted, at hand, or no voice speaks the page's language. */
  readonly speech: Accessor<'off' | 'ready' | 'no-voice'>;
  /** Has the browser the call for it? */
  readonly vibrates: boolean;
}

export interface Services {
  ask<R extends Request>(request: R): Promise<Answers[R['q']]>;
  /** Asks the evidence worker, which is started at the first request. */
  evidence<R extends EvidenceRequest>(
    request: R,
    onProgress?: (share: number) => void,
  ): Promise<EvidenceAnswers[R['q']]>;
  readonly runs: RunAccess;
  readonly live: Live;
  readonly route: Accessor<Route>;
  go(route: Route): void;
  readonly settings: Accessor<SettingsDocument>;
  /** @param next settings that their schema accepted */
  saveSettings(next: SettingsDocument): Promise<void>;
  readonly units: Accessor<DisplayUnits>;
  /** Language and decimal mark that this page was built with; a change takes hold when it is loaded again. */
  readonly wording: Wording;
  /** The theme in force: light, dark or sun. */
  readonly theme: Accessor<string>;
  /** Runs that an earlier session left open. */
  readonly openRuns: Accessor<readonly RunSummary[]>;
  /** The page connects by itself to the port of a run that was left open, or could not; null: neither. */
  readonly reconnecting: Accessor<'trying' | 'failed' | null>;
  forgetOpenRun(runId: string): void;
  /** Saved runs with what they checked of their sensors. */
  readonly sensorRuns: Accessor<readonly SensorRun[]>;
  /** A resumed run's trace and events are taken over from the record. */
  refill(runId: string): Promise<void>;
  readonly serial: {
    readonly supported: boolean;
    /**
     * Must be called in a press; null: nothing chosen. A known port is taken unless `another` is wanted.
     * @param known ports that devices answered on before, newest first
     * @param besides the port that is read already: another one is wanted
     */
    choose(
      another: boolean,
      known?: readonly PortIds[],
      besides?: PortIds | null,
    ): Promise<SerialChoice | null>;
    /** A granted port that is there once, without a press; null: there is none. */
    find(ids: PortIds): Promise<SerialChoice | null>;
  };
  readonly sound: SoundAccess;
  /** The same as sound.state. */
  readonly soundBlocked: SoundAccess['state'];
  readonly awake: Accessor<boolean>;
  /** Tablet's clock, UTC ms, once a second. */
  readonly nowMs: Accessor<number>;
  /** A short message at the foot of the page, with an undo where something can be taken back. */
  say(text: string, undo?: () => void): void;
  fail(error: unknown): void;
}

/** For a request whose failure is said and then leaves the screen without the thing asked for. */
export function failed(app: Services): (error: unknown) => null {
  return (error) => {
    app.fail(error);
    return null;
  };
}

export const ServicesContext = createContext<Services>();

export function useServices(): Services {
  const services = useContext(ServicesContext);
  if (services === undefined) throw new Error('screen outside the app');
  return services;
}

/** What happened and what to do, for whatever was thrown. Each engine code has its words: this is checked here. */
const ADVICE: Record<EngineErrorCode | EvidenceErrorCode, Advice> = { ...ENGINE_ERROR, ...EVIDENCE_ERROR };

/** Did a store refuse? */
export const isStoreFault = (error: unknown): boolean => {
  const { code } = error as { code?: unknown };
  return typeof code === 'string' && Object.hasOwn(STORE_CAUSE, code);
};

export function adviceOf(error: unknown): Advice & { readonly detail: string } {
  const { code, detail, message } = error as { code?: unknown; detail?: unknown; message?: unknown };
  const known =
    typeof code === 'string' && Object.hasOwn(ADVICE, code) ? (code as EvidenceErrorCode) : 'internal';
  const more = typeof detail === 'string' ? detail : typeof message === 'string' ? message : '';
  return { ...ADVICE[known], detail: more };
}
