import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame, SampleFrame, StrayReason } from '../link/frames.ts';
import { isSameScale } from '../link/greeting.ts';
import type { Reading } from '../sensing/reading.ts';
import { applySetup, createSensing, describe, type SensingState, sense } from '../sensing/sensing.ts';
import type { Notice } from '../watch/inputs.ts';
import { type Beside, createBeside } from './beside.ts';
import {
  createTrack,
  restartTrack,
  type SampleGap,
  type SampleTrack,
  trackSample,
  type Witness,
} from './gaps.ts';
import { type Introduction, introduction, whole } from './introduction.ts';

/**
 * What a run knows of the device that answers it, and which of its samples count: everything between the entries of
 * the log and the readings. Plain data; what is judged of the readings is the watch's.
 */
export interface Intake {
  readonly sensing: SensingState;
  /** In force. */
  setup: Setup | null;
  hello: HelloFrame | null;
  channels: readonly ChannelFrame[];
  /** By which the run's source is read, where it does not speak the protocol; null: it does. */
  map: ReadingMap | null;
  /** A hello whose channel lines have not all come. */
  greeting: Introduction | null;
  /**
   * What another device than the run's said of itself, as far as its lines came, or the run's own that came with other
   * channels or scales; null: none answers.
   */
  other: Introduction | null;
  /** That device was taken for the run and waits for its Setup. */
  taking: boolean;
  /** A device answers whose counts are not those of the run's: its samples are kept in the log and never judged. */
  foreign: boolean;
  /**
   * The port was lost or the device started anew since, and what answers now has not said its name and its channels:
   * nothing of it is judged.
   */
  unmet: boolean;
  readonly track: SampleTrack;
  readonly beside: Beside;
}

/** What a device that says hello is to the run. */
export type Greeted = Extract<Notice, { n: 'device' }>['what'];

const USUAL_RATE_HZ = 50;

export function createIntake(): Intake {
  return {
    sensing: createSensing(),
    setup: null,
    hello: null,
    channels: [],
    map: null,
    greeting: null,
    other: null,
    taking: false,
    foreign: false,
    unmet: false,
    track: createTrack(),
    beside: createBeside(),
  };
}

/** The device that answers and is not the run's, once all of its lines have come. */
export function otherDevice({ other }: Intake): Introduction | null {
  return other !== null && whole(other) !== null ? other : null;
}

/** The other device is to go on in the run's place. Until its Setup comes nothing changes: half of it would read wrong. */
export function takeDevice(intake: Intake, deviceId: string): void {
  intake.taking = otherDevice(intake)?.hello.deviceId === deviceId;
}

/**
 * A Setup with the watch's answer to it. 'taken': with it another device has become the run's, with its own scale and
 * without a zero.
 */
export function takeSetup(intake: Intake, setup: Setup, refused: boolean): Greeted | null {
  const other = intake.taking ? otherDevice(intake) : null;
  intake.taking = false;
  if (refused) return null;
  intake.setup = setup;
  applySetup(intake.sensing, setup);
  const channels = other === null ? null : whole(other);
  if (other === null || channels === null) return null;
  intake.other = null;
  intake.foreign = false;
  intake.unmet = false;
  intake.greeting = null;
  intake.hello = other.hello;
  intake.map = other.map;
  intake.channels = channels;
  restartTrack(intake.track);
  describe(intake.sensing, other.hello, channels);
  return 'taken';
}

/** null: nothing has changed. */
export function takeHello(intake: Intake, frame: HelloFrame, map: ReadingMap | null): Greeted | null {
  const before = intake.hello;
  if (before !== null && before.deviceId !== frame.deviceId) {
    const known = intake.foreign;
    intake.foreign = true;
    intake.greeting = null;
    intake.other = introduction(frame, map);
    return known ? null : 'other';
  }
  const bootId = intake.greeting?.hello.bootId ?? before?.bootId;
  intake.taking = false;
  intake.greeting = introduction(frame, map);
  if (before === null) {
    intake.hello = frame;
    intake.map = map;
    return 'greeted';
  }
  // Its name alone does not say by which scale it is to be read: that come its channels.
  if (intake.foreign || bootId === frame.bootId) return null;
  intake.unmet = true;
  restartTrack(intake.track);
  return 'reset';
}

/** null: nothing has changed. */
export function takeChannel(intake: Intake, frame: ChannelFrame): Greeted | null {
  const own = intake.greeting;
  const pending = own ?? (intake.foreign ? intake.other : null);
  if (pending === null || frame.index >= pending.channels.length) return null;
  pending.channels[frame.index] = frame;
  const complete = whole(pending);
  if (own === null || complete === null) return null;
  intake.greeting = null;
  if (intake.channels.length > 0 && !isSameScale(intake.channels, complete)) {
    const known = intake.foreign && intake.other?.hello.deviceId === own.hello.deviceId;
    intake.foreign = true;
    intake.other = own;
    return known ? null : 'rescaled';
  }
  const back = intake.foreign;
  intake.foreign = false;
  intake.other = null;
  intake.unmet = false;
  intake.hello = own.hello;
  intake.map = own.map;
  intake.channels = complete;
  describe(intake.sensing, own.hello, complete);
  return back ? 'greeted' : null;
}

/** Keeps of a notice what may explain that samples are missing. */
export function explainGap(intake: Intake, notice: Notice, tUs: number): void {
  const { track } = intake;
  switch (notice.n) {
    case 'link':
      if (notice.state !== 'lost') return;
      track.portLost = true;
      intake.unmet = intake.hello !== null;
      return;
    case 'clock-jump':
      track.askedUs = tUs;
      return;
    case 'gap':
      track.told = true;
      if (notice.reason === 'resumed') {
        track.askedUs = tUs;
        intake.taking = false;
      }
      return;
    case 'device': // a reset is seen in the counters, or by a hello
    case 'answers':
    case 'store':
    case 'stray': // made of the log's stray entries: takeStray
    case 'witness': // made of the samples themselves: takeSample
    case 'beside-link': // of another source than these samples are
    case 'beside-device':
    case 'rig': // for the debrief alone
    case 'end':
      return;
    default:
      notice satisfies never;
  }
}

/** Half a line after opening and a later version's frames are no faults of the line. */
const IS_FAULT: Readonly<Record<StrayReason, boolean>> = {
  garbage: true,
  crc: true,
  form: true,
  long: true,
  partial: false,
  unknown: false,
};

/** True where the bytes are a fault of the line. */
export function takeStray(intake: Intake, reason: StrayReason): boolean {
  if (!IS_FAULT[reason]) return false;
  intake.track.stray = true;
  return true;
}

export interface Sampled {
  /** null: it came too late and is not judged; what came after it was. */
  readonly reading: Reading | null;
  /** The device's counters went back without a hello: it started anew. */
  readonly restarted: boolean;
  /** Samples are missing before this one. */
  readonly gap: SampleGap | null;
  readonly witness: Witness | null;
}

/** null: a sample that is in the log and is not judged: a repeated one, another device's, or no sample of this one. */
export function takeSample(intake: Intake, frame: SampleFrame, tUs: number): Sampled | null {
  // A line with another number of counts than the device has channels is not to be used (specification, part 4).
  const odd = intake.hello !== null && frame.counts.length !== intake.hello.channels;
  if (intake.foreign || intake.unmet || odd) return null;
  const { use, restarted, gap, witness } = trackSample(
    intake.track,
    frame,
    tUs,
    intake.setup?.rateHz ?? USUAL_RATE_HZ,
  );
  if (!use && gap === null) return null;
  return { reading: use ? sense(intake.sensing, frame, tUs) : null, restarted, gap, witness };
}
