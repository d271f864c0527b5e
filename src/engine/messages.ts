/**
 * The contract between page and engine. Plain data only. The page asks with numbered requests, the engine
 * answers each exactly once and, unasked, sends notices: the moment (at most 30 times a second), events as they
 * happen, the link's state, and a beat so that the page can notice an engine that fell silent.
 */
import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, GuardFrame, HelloFrame, HostVerb, ReplyResult } from '../link/frames.ts';
import type { HeardLines } from '../link/line-log.ts';
import type { TestRead } from '../link/maps/look.ts';
import type { MapDoubt } from '../link/maps/translate.ts';
import type { LinkError, LinkState } from '../link/status.ts';
import type { DocumentKind, StoredDocument, StoreErrorCode } from '../record/stores/store.ts';
import type { LeftPacker, PortIds, RunSummary, SeriesName } from '../record/types.ts';
import { DRILLS, type DrillCode } from '../rig/drills.ts';
import type { RigFault, RigHand } from '../rig/faults.ts';
import type { Sensed } from '../rig/truth-log.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Command } from '../watch/inputs.ts';
import type { WatchView } from '../watch/view.ts';
import type { Asked, FromWorker } from './worker/contract.ts';
import type { StoreFaults } from './worker/stores.ts';

export type { DrillCode, LeftPacker, PortIds, RigFault, RigHand, RunSummary, Sensed, StoreFaults, TestRead };
export { DRILLS };

/** The practice sites: the demo job's own, and what there is to be learnt on each. */
export const PRACTICE_CODES = [
  'practice', // all well
  'practice-pair', // a second transducer at the regulator's outlet
  'practice-moved', // the same: the regulator moves after it was proved, or seen to stand
  'practice-differ', // the same: it reads off
  'practice-cup', // a probe in a cup of the batch, which is slow
  'practice-air', // no packer: a pipe between two plugs, for the air test
] as const;
export type PracticeCode = (typeof PRACTICE_CODES)[number];

export interface RigOptions {
  readonly seed: number;
  /** Simulated seconds a real second; 1 is real time. Practice may go faster in the hold. */
  readonly speed: number;
  readonly scenario: string;
}

export type PortChoice =
  | { readonly kind: 'rig'; readonly options: RigOptions }
  /** A granted serial port, found again in the worker by its place in getPorts() and its USB ids. */
  | {
      readonly kind: 'serial';
      readonly index: number;
      readonly usbVendorId: number | null;
      readonly usbProductId: number | null;
      /** Behind it is no device of the protocol: a bus or a plain line, read by this map. */
      readonly map?: ReadingMap;
    };

export type SerialChoice = Extract<PortChoice, { kind: 'serial' }>;
/** A serial port with the map by which it is read. */
export type MappedPort = SerialChoice & { readonly map: ReadingMap };

/** A picture's worth of trace: per bucket the lowest and highest value and its time. null is a gap. */
export interface TraceWindow {
  readonly fromS: number;
  readonly toS: number;
  /** Seconds from the first sample, ascending. */
  readonly s: Float64Array;
  /** One pair of columns a series: bar first, a second pressure where one was read, then a temperature each. NaN marks a gap. */
  readonly series: readonly {
    readonly name: SeriesName;
    /** Of a temperature; of a second pressure its role. */
    readonly place: string | null;
    readonly channel: number;
    readonly min: Float32Array;
    readonly max: Float32Array;
  }[];
  /** Readings behind the window. */
  readonly readings: number;
}

export interface RunDetail {
  readonly summary: RunSummary;
  readonly firstS: number;
  readonly lastS: number;
  readonly setups: readonly Setup[];
  /** Seconds from the first sample = (tUs − firstUs) / 1e6. */
  readonly firstUs: number;
  readonly utcMs: number | null;
  readonly events: readonly WatchEvent[];
  readonly hello: HelloFrame | null;
  readonly channels: readonly ChannelFrame[];
  /** By which its source was read, where that does not speak the protocol; null: it does. */
  readonly map: ReadingMap | null;
  /** Where pages were damaged or missing, in words' codes. */
  readonly damage: readonly {
    readonly page: number;
    readonly what: 'crc' | 'torn' | 'missing';
    readonly fromS: number | null;
  }[];
}

export type Request =
  | { readonly q: 'start-engine' }
  /** Reads again what was left by runs of other tabs; tells it unasked too when one of them gives its run up. */
  | { readonly q: 'look-left' }
  | { readonly q: 'connect'; readonly port: PortChoice }
  | { readonly q: 'disconnect' }
  /** A second adapter for temperatures, beside the device with the pressure, which is connected before it. */
  | { readonly q: 'connect-beside'; readonly port: SerialChoice }
  | { readonly q: 'disconnect-beside' }
  /** One trial reading by the map of the port; refused while a run is recorded. What is connected is let go for it. */
  | { readonly q: 'test-read'; readonly port: MappedPort }
  /**
   * Opens a run: from now on everything is recorded. Before it the guard runs and nothing is stored, but what it
   * heard since connecting (bounded, gaps marked: early.ts) goes into the record when the run is opened.
   */
  | {
      readonly q: 'open-run';
      readonly jobId: string | null;
      readonly title: string;
      readonly practice: boolean;
      readonly setup: Setup;
      /** Whoever practises, for a run on the practice rig. */
      readonly trainee?: string;
    }
  | { readonly q: 'resume-run'; readonly runId: string }
  | { readonly q: 'close-interrupted'; readonly runId: string }
  /**
   * Refused with the store's code while it takes no pages: the run goes on. `givenUp` ends it all the same without the
   * pages that wait, which `run-pages` gives before.
   */
  | { readonly q: 'end-run'; readonly givenUp?: boolean }
  /** Somebody has seen that the packer of that run is empty; `title` for a run of which nothing was kept. */
  | { readonly q: 'packer-empty'; readonly runId: string; readonly title: string }
  | { readonly q: 'setup'; readonly setup: Setup }
  /** The device that answers in the place of the run's goes on in the run, by this Setup of its own channels. */
  | { readonly q: 'take-device'; readonly deviceId: string; readonly setup: Setup }
  | { readonly q: 'command'; readonly command: Command }
  | { readonly q: 'device-limit'; readonly mbar: number }
  | { readonly q: 'device-silence' }
  /** What came over the line from that number on, refused lines with their reason; a look, which disturbs nothing. */
  | { readonly q: 'bench-lines'; readonly from: number }
  /** A command of the device's own guard, to try it. Refused while a run is open or a limit is in force. */
  | { readonly q: 'bench-guard'; readonly verb: GuardVerb }
  | { readonly q: 'rig-hand'; readonly hand: RigHand }
  | { readonly q: 'rig-fault'; readonly fault: RigFault }
  | { readonly q: 'rig-speed'; readonly speed: number }
  /** A picture of the open run. Refused with 'no-run' where that run is not the one that is recorded now. */
  | {
      readonly q: 'live-window';
      readonly runId: string;
      readonly fromS: number;
      readonly toS: number;
      readonly points: number;
    }
  | { readonly q: 'runs' }
  /**
   * A piece of the open run's pages from a byte on, those that wait to be written among them: nobody else can read the
   * file that the recorder holds. What is made of them is made elsewhere (evidence/messages.ts). Refused as `live-window` is.
   */
  | { readonly q: 'run-pages'; readonly runId: string; readonly from: number }
  | { readonly q: 'documents'; readonly kind: DocumentKind }
  | { readonly q: 'document'; readonly kind: DocumentKind; readonly id: string }
  | { readonly q: 'put-document'; readonly document: StoredDocument }
  | { readonly q: 'remove-document'; readonly kind: DocumentKind; readonly id: string }
  | { readonly q: 'storage' };

/** The verbs of a device's own guard, which has all of them or none. */
export type GuardVerb = Extract<HostVerb, { readonly verb: 'limit' | 'read' | 'disarm' | 'silence' }>;

export interface Answers {
  'start-engine': { readonly engine: number; readonly open: readonly RunSummary[] };
  'look-left': { readonly open: readonly RunSummary[] };
  connect: { readonly state: LinkState };
  disconnect: null;
  'connect-beside': { readonly hello: HelloFrame; readonly channels: readonly ChannelFrame[] };
  'disconnect-beside': null;
  'test-read': TestRead;
  'open-run': { readonly runId: string };
  'resume-run': { readonly runId: string };
  'close-interrupted': null;
  'end-run': { readonly runId: string };
  'packer-empty': null;
  setup: null;
  'take-device': null;
  command: null;
  'device-limit': { readonly kept: boolean; readonly mbar: number | null };
  'device-silence': null;
  'bench-lines': HeardLines;
  /** null: the device did not answer. */
  'bench-guard': { readonly result: ReplyResult | null };
  'rig-hand': null;
  'rig-fault': null;
  'rig-speed': null;
  'live-window': TraceWindow;
  runs: readonly RunSummary[];
  /** `bytes` is empty at the end. */
  'run-pages': { readonly bytes: Uint8Array };
  documents: readonly StoredDocument[];
  document: StoredDocument | null;
  'put-document': StoredDocument;
  'remove-document': null;
  storage: {
    /** null: the browser does not say. */
    readonly persisted: boolean | null;
    readonly roomBytes: number | null;
    readonly faults: StoreFaults;
  };
}

export type EngineErrorCode =
  | LinkError
  | StoreErrorCode
  | 'run-locked' // another tab runs this job
  | 'no-run'
  | 'run-open'
  | 'not-connected'
  | 'not-a-rig'
  | 'refused'
  | 'bad-request'
  | 'internal';

export interface LinkView {
  readonly state: LinkState;
  readonly error: LinkError | null;
  readonly kind: 'serial' | 'rig' | null;
  /** The USB numbers of the serial port that is read; null: none is. */
  readonly port: Pick<PortIds, 'usbVendorId' | 'usbProductId'> | null;
  readonly hello: HelloFrame | null;
  readonly channels: readonly ChannelFrame[];
  /** Another device that answers in the run device's place, and is not read; null: none does. */
  readonly other: { readonly hello: HelloFrame; readonly channels: readonly ChannelFrame[] } | null;
  readonly deviceGuard: GuardFrame | null;
  readonly rateHz: number | null;
  readonly frames: number;
  readonly strayBytes: number;
  /** The speed of the line that is tried or in use, bits a second; null: none, or it has none. */
  readonly baudRate: number | null;
  /** Samples a second that the line carries at that speed; null: it has none, or is asked each time. */
  readonly mostHz: number | null;
  /** The newest line that was no frame, for reading: printable and short; null: none since the last frame. */
  readonly strayLine: string | null;
  /** By which the source is read, where it does not speak the protocol; null: it does, or nothing is connected. */
  readonly map: ReadingMap | null;
  /** What speaks against the newest values that were made by the map. */
  readonly doubts: readonly MapDoubt[];
  /** The second adapter; null: none is meant to be read. */
  readonly beside: BesideView | null;
}

/** The second adapter, as far as its temperatures go. */
export type BesideView = Pick<
  LinkView,
  'state' | 'error' | 'channels' | 'rateHz' | 'baudRate' | 'strayLine' | 'map' | 'doubts'
> & { readonly hello: HelloFrame | null };

export interface RunView {
  readonly runId: string;
  readonly jobId: string | null;
  readonly practice: boolean;
  readonly resumed: boolean;
  readonly savedUs: number;
  readonly bytes: number;
  readonly storeFault: string | null;
}

/** The simulated truth, for practice mode's picture of the site only; never an input of the engine. */
export interface RigView {
  readonly truePackerBar: number;
  readonly trueLineBar: number;
  readonly valveOpen: number;
  readonly ventOpen: boolean;
  readonly regulatorBar: number;
  readonly coupled: boolean;
  /** The end of a hose that is off the packer is shut. */
  readonly endShut: boolean;
  /** What somebody at the site hears and sees without an instrument. */
  readonly sensed: readonly Sensed[];
  /** What is drilled: then neither faults nor truth are shown. null: nothing is. */
  readonly drill: DrillCode | null;
  readonly simulatedS: number;
  readonly speed: number;
}

/** What the engine tells unasked. */
export type EngineNews =
  | {
      readonly m: 'moment';
      readonly view: WatchView;
      readonly link: LinkView;
      readonly run: RunView | null;
      readonly rig: RigView | null;
      /** Newest readings since the last moment, for the live plot: seconds from first sample and bar (NaN: gap). */
      readonly fresh: {
        readonly s: Float64Array;
        readonly bar: Float32Array;
        /** A second pressure, bar; null: none is read. */
        readonly second: Float32Array | null;
        readonly temps: readonly { readonly channel: number; readonly c: Float32Array }[];
      };
    }
  | { readonly m: 'event'; readonly event: WatchEvent }
  /** Whenever it changes, and at the start: packers that were not seen empty when their run stopped, the open run's among them. */
  | { readonly m: 'left'; readonly left: readonly LeftPacker[] }
  /** Runs that are left open now: another tab has given one up. */
  | { readonly m: 'open-runs'; readonly open: readonly RunSummary[] }
  | { readonly m: 'beat'; readonly utcMs: number };

export interface EngineContract {
  readonly request: Request;
  readonly answers: Answers;
  readonly refusal: EngineErrorCode;
  readonly news: EngineNews;
}

export type ToEngine = Asked<EngineContract>;
export type FromEngine = FromWorker<EngineContract>;
