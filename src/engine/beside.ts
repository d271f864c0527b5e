import { isBeside, ownChannel } from '../job/beside.ts';
import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame, SampleFrame } from '../link/frames.ts';
import type { BesideEntry } from '../record/log.ts';
import type { TemperatureReading } from '../sensing/reading.ts';
import { describeBeside, type SensingState, senseBeside } from '../sensing/sensing.ts';
import type { Notice } from '../watch/inputs.ts';
import { type Introduction, introduction, whole } from './introduction.ts';

/**
 * What a run knows of its second adapter, and which of its samples count. The Setup names it and reads its channels; where no
 * Setup names any channel the adapter's own suggestion is read. Plain data.
 */
export interface Beside {
  /** Of the adapter that answers; null: none has said who it is. */
  hello: HelloFrame | null;
  channels: readonly ChannelFrame[];
  map: ReadingMap | null;
  /** A hello whose channel lines have not all come: nothing of it is judged. */
  greeting: Introduction | null;
  /** Its counts are those that the Setup reads. */
  read: boolean;
  /** Number of the newest sample; null: none since it said who it is. */
  seq: number | null;
}

export const createBeside = (): Beside => ({
  hello: null,
  channels: [],
  map: null,
  greeting: null,
  read: false,
  seq: null,
});

/** Of the intake what the second adapter touches. */
export interface BesideIntake {
  readonly sensing: SensingState;
  readonly setup: Setup | null;
  readonly beside: Beside;
}

/** What the second adapter that answers is to the Setup in force. */
export type BesideGreeted = Extract<Notice, { n: 'beside-device' }>['what'];

/** The converter's part of a channel, which a Setup has from the adapter's own line. */
const converterOf = (of: {
  readonly bits: number;
  readonly rawLo: number;
  readonly rawHi: number;
  readonly elLo: number;
  readonly elHi: number;
}): string => [of.bits, of.rawLo, of.rawHi, of.elLo, of.elHi].join();

/** null: the Setup names no second adapter. */
function besideTo(
  setup: Setup | null,
  hello: HelloFrame,
  channels: readonly ChannelFrame[],
): BesideGreeted | null {
  if (setup === null || setup.channels.length === 0) return 'greeted';
  if (setup.besideId === undefined) return null;
  if (setup.besideId !== hello.deviceId) return 'other';
  const isSame = setup.channels.every((ch) => {
    if (!isBeside(ch.index)) return true;
    const line = channels.find((c) => c.index === ownChannel(ch.index));
    return line !== undefined && converterOf(line) === converterOf(ch);
  });
  return isSame ? 'greeted' : 'rescaled';
}

function meet({ sensing, setup, beside }: BesideIntake): BesideGreeted | null {
  const { hello, channels } = beside;
  if (hello === null || beside.greeting !== null) return null;
  const was = beside.read;
  const what = besideTo(setup, hello, channels);
  beside.read = what === 'greeted';
  if (beside.read) describeBeside(sensing, hello, channels);
  return beside.read && was ? null : what;
}

/** Another Setup is in force. */
export const besideSetup = (intake: BesideIntake): BesideGreeted | null => meet(intake);

function takeLine(
  intake: BesideIntake,
  frame: HelloFrame | ChannelFrame,
  map: ReadingMap | null,
): BesideGreeted | null {
  const { beside } = intake;
  if (frame.t === 'H') {
    beside.greeting = introduction(frame, map);
    return null;
  }
  const { greeting } = beside;
  if (greeting === null || frame.index >= greeting.channels.length) return null;
  greeting.channels[frame.index] = frame;
  const channels = whole(greeting);
  if (channels === null) return null;
  const back = beside.hello?.deviceId === greeting.hello.deviceId && beside.read;
  beside.hello = greeting.hello;
  beside.map = greeting.map;
  beside.channels = channels;
  beside.greeting = null;
  beside.seq = null;
  beside.read = back;
  return meet(intake);
}

function takeSample({ sensing, beside }: BesideIntake, frame: SampleFrame, tUs: number) {
  const { hello, greeting, read, seq } = beside;
  // As of the first device: a line with another number of counts is not to be used (specification, part 4).
  if (!read || greeting !== null || frame.counts.length !== hello?.channels || frame.seq === seq) return null;
  beside.seq = frame.seq;
  return senseBeside(sensing, frame, tUs);
}

export interface BesideTaken {
  readonly told: BesideGreeted | null;
  /** What was converted anew; null: no sample, or none that counts. */
  readonly temps: readonly TemperatureReading[] | null;
}

const NOTHING: BesideTaken = { told: null, temps: null };

/** Takes one entry of the second adapter. Its guard and its button are none of the run's. */
export function takeBeside(intake: BesideIntake, { frame, map, tUs }: BesideEntry): BesideTaken {
  switch (frame.t) {
    case 'H':
    case 'C':
      return { told: takeLine(intake, frame, map ?? null), temps: null };
    case 'S':
      return { told: null, temps: takeSample(intake, frame, tUs) };
    case 'E':
    case 'G':
    case 'R':
      return NOTHING;
    default:
      return frame satisfies never;
  }
}
