/**
 * The rig as a device on a line: a simulated site, sensors on it, and firmware that speaks the device protocol
 * byte for byte. Time is an argument; nothing happens between two calls of advance().
 */
import { type ChannelOptions, type Channels, createChannels, supplyRatio } from './channels.ts';
import { type Crew, type CrewOptions, createCrew } from './crew.ts';
import type { DeviceGuard } from './device-guard.ts';
import { type Happening, namedFault, namedHand, type RigFault, type RigHand } from './faults.ts';
import { Firmware, type FirmwareConfig } from './firmware.ts';
import type { SiteOptions } from './options.ts';
import { createRandom } from './random.ts';
import { createSite, type Site } from './site.ts';
import { createTriggers, type Planned } from './triggers.ts';
import { createTruthLog, type RigSaid } from './truth-log.ts';

export interface RigDeviceOptions {
  readonly seed: number;
  readonly site?: SiteOptions;
  readonly channels?: Omit<ChannelOptions, 'seed'>;
  /** Hands that work by themselves; null or absent: only hand(). */
  readonly crew?: CrewOptions | null;
  /** Faults and hands at their times. */
  readonly script?: readonly Happening[];
  /** Faults that come when the work has come so far. */
  readonly planned?: readonly Planned[];
  /** Is told what truly is and what was done, as it happens. */
  readonly say?: (said: RigSaid) => void;
  readonly deviceId?: string;
  readonly firmware?: string;
  /** Most conversions a second, 1-1000. */
  readonly maxRateHz?: number;
  /** 0: not limited by the line (USB). */
  readonly baud?: number;
  /** Error of the device's clock, parts per million. */
  readonly clockPpm?: number;
  /** Clock and sample number at switching on, to be near a wrap-around; both 0 after a reset. */
  readonly startTick?: number;
  readonly startSeq?: number;
  /** How long the device needs to start, s. */
  readonly bootS?: number;
}

export interface RigDevice {
  readonly site: Site;
  readonly channels: Channels;
  readonly guard: DeviceGuard;
  readonly crew: Crew | null;
  readonly nowS: number;
  /** False while its plug is out: no bytes either way; it loses its power too. */
  readonly plugged: boolean;
  readonly bootId: number;
  /** Lets time pass up to toS (seconds since it was switched on). Bytes gather for take(). */
  advance(toS: number): void;
  /** The bytes since the last call, in an array of their own. */
  take(): Uint8Array;
  receive(bytes: Uint8Array): void;
  fault(fault: RigFault): void;
  hand(hand: RigHand): void;
  /** The device's button, pressed and let go: acknowledges its sounder. */
  press(): void;
}

const IDLE_STEP_S = 0.02;
/** A hand must be asked often, however slowly the device samples. */
const CREW_STEP_S = 0.1;
/** What a ratiometric sensor gets when its supply sags, V. */
const SAG_V = 4.6;

/** Most samples a second that the line carries: ten bits a byte, a tenth kept free for everything else. */
function rateLimit(channels: Channels, baud: number, maxRateHz: number): number {
  if (baud === 0) return maxRateHz;
  let bytes = 2 + 11 + 11 + 6 + 9;
  for (const c of channels.frames) {
    const top = Math.max(0, c.rawHi, -c.rawLo);
    bytes += 1 + String(top).length + (c.rawLo < 0 ? 1 : 0);
  }
  return Math.min(maxRateHz, Math.max(1, Math.floor(((baud / 10) * 0.9) / bytes)));
}

export function createRigDevice(options: RigDeviceOptions): RigDevice {
  const random = createRandom(options.seed);
  const site = createSite(options.site);
  const maxRateHz = options.maxRateHz ?? 200;
  const channels = createChannels(site, { ...options.channels, seed: options.seed }, maxRateHz);
  const crew = options.crew ? createCrew(options.crew) : null;
  const script = [...(options.script ?? [])].sort((a, b) => a.atS - b.atS);
  const triggers = createTriggers(options.planned ?? []);
  const log = options.say === undefined ? null : createTruthLog(options.say);
  const bootS = options.bootS ?? 0.3;
  const garbage = random.fork('garbage');
  const boots = random.fork('boots');
  const press = channels.frames[channels.pressIndex]!;
  const { transducer } = channels;
  const zeroCounts = transducer.countsAt(press.rangeLo / 1e5);
  const spanCounts = transducer.countsAt(press.rangeHi / 1e5) - zeroCounts;
  const config: FirmwareConfig = {
    deviceId: options.deviceId ?? 'RIG-1',
    firmware: options.firmware ?? 'rig-1',
    channels: channels.frames,
    supplyIndex: channels.supplyIndex,
    maxRateHz: rateLimit(channels, options.baud ?? 0, maxRateHz),
    guard: {
      channel: channels.pressIndex,
      small: transducer.countsAt(0.1),
      floor: Math.floor(zeroCounts - 0.025 * spanCounts),
      deadband: Math.max(1, Math.round(0.01 * spanCounts)),
      top: press.rawHi,
    },
    clockPpm: options.clockPpm ?? 0,
  };
  let nowS = 0;
  let plugged = true;
  let chunks: Uint8Array[] = [];
  let silentUntilS = 0;
  let next = 0;
  let readyS = 0;
  let firmware = boot(options.startTick ?? 0, options.startSeq ?? 0, null);

  function boot(startTick: number, startSeq: number, kept: Firmware['kept']): Firmware {
    readyS = nowS + bootS;
    const bootId = Math.floor(boots.next() * 4294967296);
    return new Firmware(config, { bootId, atS: nowS, startTick, startSeq, kept }, (line) => {
      chunks.push(line);
    });
  }

  const alive = () => plugged && nowS >= readyS;
  const mute = () => nowS < silentUntilS;

  function work(): void {
    const streaming = firmware.rateHz > 0;
    const due = streaming && nowS >= firmware.nextSampleS - 1e-9;
    if (due || !streaming) {
      channels.convert(nowS);
      const { supplyIndex, pressIndex } = channels;
      const supply = supplyIndex === null ? null : supplyRatio(channels.counts(supplyIndex));
      firmware.convert(nowS, channels.counts(pressIndex), supply);
    }
    firmware.poll(nowS, mute());
    if (due) firmware.sample(channels.take);
  }

  function advance(toS: number): void {
    while (nowS < toS - 1e-9) {
      let until = firmware.rateHz > 0 && alive() ? firmware.nextSampleS : nowS + IDLE_STEP_S;
      const due = script[next];
      if (due !== undefined && due.atS < until) until = Math.max(nowS, due.atS);
      if (crew !== null) until = Math.min(until, nowS + CREW_STEP_S);
      until = Math.min(until, toS);
      if (until > nowS) {
        crew?.step(site, nowS);
        site.stepTo(until);
        nowS = until;
        for (const f of triggers.due(site.truth, nowS)) fault(f);
        log?.look(site.truth, nowS);
      }
      if (due !== undefined && nowS >= due.atS - 1e-9) {
        next++;
        if ('fault' in due) fault(due);
        else hand(due);
      }
      if (alive()) work();
    }
  }

  function fault(f: RigFault): void {
    log?.happened('fault', namedFault(f), nowS);
    switch (f.fault) {
      case 'regulator':
        site.regulator(f.bar);
        return;
      case 'creep':
        site.creep(f.barPerMin);
        return;
      case 'stuck-open':
        site.stuckOpen(true);
        return;
      case 'leak':
        site.leak(f.mbarPerMin, Math.max(0.5, site.truth.packerBar));
        return;
      case 'open-probe': {
        const couple = channels.couples[0];
        if (couple !== undefined) couple.wiring = 'open';
        return;
      }
      case 'unplug':
        plugged = false;
        chunks = [];
        return;
      case 'replug':
        if (plugged) return;
        plugged = true;
        firmware = boot(0, 0, firmware.kept);
        return;
      case 'reset':
        if (plugged) firmware = boot(0, 0, firmware.kept);
        return;
      case 'garbage':
        if (alive() && !mute()) chunks.push(Uint8Array.from({ length: f.bytes }, () => garbage.int(0, 255)));
        return;
      case 'silence':
        silentUntilS = nowS + f.seconds;
        return;
      case 'supply-sag':
        transducer.supplyV = SAG_V;
        if (channels.second !== null) channels.second.supplyV = SAG_V;
        return;
      case 'kink':
        site.kink(f.open);
        return;
      case 'burst':
        site.burst();
        return;
      case 'blown-hose':
        site.couple(false);
        return;
      case 'relief':
        site.relief(f.bar);
        return;
      case 'first-lost':
        transducer.broken = true;
        return;
      case 'second-off':
        if (channels.second !== null) channels.second.shiftBar = f.bar;
        return;
      case 'second-lost':
        if (channels.second !== null) channels.second.broken = true;
        return;
      case 'sensors-swapped':
        channels.swapTaps(true);
        return;
      case 'cup-in-air':
        channels.putCupTip('air');
        return;
      case 'cup-swapped':
        channels.putCupTip('sleeve');
        return;
      case 'hose-leak':
        site.hoseLeak(f.lPerMin);
        return;
      case 'put-right':
        channels.swapTaps(false);
        channels.putCupTip('cup');
        if (channels.second !== null) channels.second.shiftBar = 0;
        site.hoseLeak(0);
        site.kink(1);
        return;
      default:
        f satisfies never;
    }
  }

  function hand(h: RigHand): void {
    log?.happened('hand', namedHand(h), nowS);
    switch (h.hand) {
      case 'valve':
        site.valve(h.open);
        return;
      case 'regulator':
        site.regulator(h.bar);
        return;
      case 'vent':
        site.vent(h.open);
        return;
      case 'couple':
        site.couple(h.coupled);
        return;
      case 'end':
        site.hoseEnd(h.shut);
        return;
      case 'warm':
        channels.hold(h.held);
        return;
      default:
        h satisfies never;
    }
  }

  return {
    site,
    channels,
    crew,
    get guard() {
      return firmware.guard;
    },
    get nowS() {
      return nowS;
    },
    get plugged() {
      return plugged;
    },
    get bootId() {
      return firmware.bootId;
    },
    advance,
    take() {
      let length = 0;
      for (const c of chunks) length += c.length;
      const out = new Uint8Array(length);
      let at = 0;
      for (const c of chunks) {
        out.set(c, at);
        at += c.length;
      }
      chunks = [];
      return out;
    },
    receive(bytes) {
      if (alive()) firmware.receive(bytes, nowS);
    },
    fault,
    hand,
    press() {
      if (alive()) firmware.press(nowS);
    },
  };
}
