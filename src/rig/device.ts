/**
 * The rig as a device on a line: it speaks the device protocol byte for byte, as the C reference does, and reads
 * the simulated site through its sensors. Time is an argument; nothing happens between two calls of advance().
 */
import { createDecoder } from '../link/decode.ts';
import { encodeFrame } from '../link/encode.ts';
import {
  type CommandFrame,
  type DeviceEventCode,
  type DeviceFrame,
  type Frame,
  PROTOCOL_VERSION,
  type ReplyFrame,
  STATUS,
  type StrayReason,
} from '../link/frames.ts';
import { type ChannelOptions, type Channels, createChannels, supplyRatio } from './channels.ts';
import { type Crew, type CrewOptions, createCrew } from './crew.ts';
import { DeviceGuard, type DeviceLimit } from './deviceGuard.ts';
import type { Happening, RigFault, RigHand } from './faults.ts';
import type { SiteOptions } from './options.ts';
import { createRandom } from './random.ts';
import { createSite, type Site } from './site.ts';

export interface RigDeviceOptions {
  readonly seed: number;
  readonly site?: SiteOptions;
  readonly channels?: Omit<ChannelOptions, 'seed'>;
  /** Hands that work by themselves; null or absent: only hand(). */
  readonly crew?: CrewOptions | null;
  /** Faults and hands at their times. */
  readonly script?: readonly Happening[];
  readonly deviceId?: string;
  readonly firmware?: string;
  readonly maxRateHz?: number;
  /** 0: not limited by the line (USB). */
  readonly baud?: number;
  /** Error of the device's clock, parts per million. */
  readonly clockPpm?: number;
  /** Device clock at switching on, ticks: to be near a wrap-around. Its power-on time otherwise. */
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

const HOST_SILENT_S = 3;
const IDLE_STEP_S = 0.02;
/** A hand must be asked often, however slowly the device samples. */
const CREW_STEP_S = 0.1;
const DEVICE_VERBS = ['hello', 'start', 'stop', 'beat', 'limit', 'read', 'disarm', 'silence'];

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
  const mostHz = rateLimit(channels, options.baud ?? 0, maxRateHz);
  const bootS = options.bootS ?? 0.3;
  const garbage = random.fork('garbage');
  const boots = random.fork('boots');
  const press = channels.frames[0]!;
  const transducer = channels.transducer;
  const smallCounts = transducer.countsAt(0.1);
  const spanCounts = transducer.countsAt(press.rangeHi / 1e5) - transducer.countsAt(press.rangeLo / 1e5);
  const guardConfig = {
    channel: 0,
    small: smallCounts,
    floor: Math.floor(transducer.countsAt(press.rangeLo / 1e5) - 0.025 * spanCounts),
    deadband: Math.max(1, Math.round(0.01 * spanCounts)),
    top: press.rawHi,
  };
  let nowS = 0;
  let plugged = true;
  let chunks: Uint8Array[] = [];
  let silentUntilS = 0;
  let next = 0;
  /** Kept over a reset, as in the device's non-volatile memory. */
  let kept: DeviceLimit | null = null;

  // What a reset clears.
  let guard = new DeviceGuard(guardConfig);
  let bootId = 0;
  let bootAtS = 0;
  let readyS = 0;
  let startTick = options.startTick ?? 0;
  let seq = options.startSeq ?? 0;
  let rateHz = 0;
  let nextSampleS = 0;
  let streamFromS = 0;
  let streamed = 0;
  let heard = false;
  let heardS = 0;
  let hostLost = false;
  let last: ReplyFrame | null = null;
  let events: {
    code: DeviceEventCode;
    channel: number | null;
    value: number | null;
    s: number;
    number: number;
  }[] = [];
  let eventNumber = 0;
  let guardShown = '';
  let guardS = 0;
  let tripsSeen = 0;
  let returnsSeen = 0;
  let sampleDropped = false;
  let supplyTold = false;
  let button = false;
  let decoder = createDecoder('host');
  boot();

  function boot(): void {
    guard = new DeviceGuard(guardConfig);
    if (kept !== null) guard.restore(kept);
    bootId = Math.floor(boots.next() * 4294967296);
    bootAtS = nowS;
    readyS = nowS + bootS;
    rateHz = 0;
    heard = false;
    hostLost = false;
    last = null;
    events = [];
    eventNumber = 0;
    guardShown = '';
    tripsSeen = 0;
    returnsSeen = 0;
    sampleDropped = false;
    supplyTold = false;
    button = false;
    decoder = createDecoder('host');
    addEvent('boot', null, null);
  }

  const tick = (s: number) =>
    (startTick + Math.round((s - bootAtS) * 1e4 * (1 + (options.clockPpm ?? 0) * 1e-6))) % 4294967296;
  const alive = () => plugged && nowS >= readyS;
  const speaks = () => alive() && nowS >= silentUntilS;

  function send(frame: DeviceFrame): void {
    chunks.push(encodeFrame(frame));
  }

  function addEvent(code: DeviceEventCode, channel: number | null, value: number | null): void {
    events.push({ code, channel, value, s: nowS, number: eventNumber });
    eventNumber = (eventNumber + 1) & 0xffff;
    // A device keeps four: what does not fit is lost, and the next number shows it.
    if (events.length > 4) events.splice(4);
  }

  function sendGuard(): void {
    const { state, limit } = guard;
    const armed = state !== 'unarmed' && limit !== null;
    send({
      t: 'G',
      tick: tick(nowS),
      state: armed ? state : 'unarmed',
      channel: armed ? limit.channel : null,
      limitCounts: armed ? limit.counts : null,
      limitMbar: armed ? limit.mbar : null,
      sounder: state === 'tripped' ? 1 : 0,
    });
    guardShown = state;
    guardS = nowS;
  }

  function sendHello(): void {
    send({
      t: 'H',
      version: PROTOCOL_VERSION,
      deviceId: options.deviceId ?? 'RIG-1',
      firmware: options.firmware ?? 'rig-1',
      bootId,
      uptime: tick(nowS),
      channels: channels.frames.length,
      maxRateHz: mostHz,
    });
    for (const frame of channels.frames) send(frame);
  }

  function carryOut(frame: CommandFrame): ReplyFrame {
    const k = frame.command;
    const reply = (result: ReplyFrame['result'], value: number | null = null): ReplyFrame => ({
      t: 'R',
      command: frame.number,
      result,
      value,
    });
    switch (k.verb) {
      case 'start':
        rateHz = Math.min(k.rateHz, mostHz);
        streamFromS = nowS;
        streamed = 0;
        nextSampleS = nowS + 1 / rateHz;
        return reply(k.rateHz > mostHz ? 'clamped' : 'ok', rateHz);
      case 'stop':
        rateHz = 0;
        return reply('ok');
      case 'limit': {
        const result = guard.set(nowS, { channel: k.channel, counts: k.counts, mbar: k.mbar });
        if (result === 'ok') kept = guard.limit;
        guardShown = '';
        return reply(result, guard.state === 'unarmed' ? null : (guard.limit?.counts ?? null));
      }
      case 'disarm': {
        const result = guard.disarm(nowS);
        if (result === 'ok') kept = null;
        guardShown = '';
        return reply(result);
      }
      case 'silence':
        guard.silence(nowS);
        return reply('ok');
      case 'read':
        guardShown = '';
        return reply('ok');
      default:
        return reply('ok');
    }
  }

  function signOfLife(isHello: boolean): void {
    if (!heard) {
      heard = true;
      guardShown = '';
      // A hello already tells boot id and uptime; to any other command the start has to be announced.
      if (isHello && events[0]?.code === 'boot') events.shift();
    } else if (hostLost) addEvent('hostback', null, null);
    hostLost = false;
    heardS = nowS;
  }

  const sink = {
    frame(frame: Frame) {
      if (frame.t !== 'K') return;
      signOfLife(frame.command.verb === 'hello');
      // A repeated number is answered again and not carried out twice.
      if (last === null || last.command !== frame.number) last = carryOut(frame);
      if (!speaks()) return;
      send(last);
      if (frame.command.verb === 'hello') sendHello();
      poll();
    },
    stray(reason: StrayReason, bytes: Uint8Array) {
      if (reason !== 'form') return;
      // Whole line, right sum, no command this device knows: answered where its number can be read.
      const text = String.fromCharCode(...bytes);
      const m = /^K,(0|[1-9]\d{0,4}),([a-z]*)/.exec(text);
      if (m === null || Number(m[1]) > 0xffff) return;
      signOfLife(false);
      const known = DEVICE_VERBS.includes(m[2]!);
      last = { t: 'R', command: Number(m[1]), result: known ? 'range' : 'unknown', value: null };
      if (speaks()) send(last);
    },
  };

  /** Timers and lines that are due, samples apart. */
  function poll(): void {
    if (!alive()) return;
    if (heard && !hostLost && nowS - heardS >= HOST_SILENT_S) {
      hostLost = true;
      addEvent('hostlost', null, null);
    }
    if (tripsSeen !== guard.trips) {
      tripsSeen = guard.trips;
      addEvent('trip', 0, guard.tripCounts);
    }
    if (returnsSeen !== guard.returns) {
      returnsSeen = guard.returns;
      addEvent('return', 0, guard.counts);
    }
    if (guard.supplyLow !== supplyTold) {
      supplyTold = guard.supplyLow;
      if (supplyTold) addEvent('fault', channels.supplyIndex, 0);
    }
    if (!heard || !speaks()) return;
    for (const e of events)
      send({ t: 'E', number: e.number, tick: tick(e.s), code: e.code, channel: e.channel, value: e.value });
    events = [];
    if (guardShown !== guard.state || nowS - guardS >= 1) sendGuard();
  }

  function convert(): void {
    channels.convert(nowS);
    if (channels.supplyIndex !== null) guard.follow(supplyRatio(channels.counts(channels.supplyIndex)));
    guard.step(nowS, channels.counts(0));
  }

  function sample(): void {
    const number = seq;
    seq = (seq + 1) % 4294967296;
    if (!speaks() || !heard) {
      sampleDropped = true;
      return;
    }
    let status = 0;
    if (sampleDropped) status |= STATUS.dropped;
    if (guard.state !== 'unarmed') status |= STATUS.armed;
    if (guard.state === 'tripped' || guard.state === 'silenced') status |= STATUS.tripped;
    if (guard.supplyLow) status |= STATUS.supplyLow;
    if (hostLost) status |= STATUS.hostSilent;
    if (button) status |= STATUS.button;
    sampleDropped = false;
    send({ t: 'S', seq: number, tick: tick(nowS), counts: channels.take(), status });
  }

  function happen(h: Happening): void {
    if ('fault' in h) device.fault(h);
    else device.hand(h);
  }

  const device: RigDevice = {
    site,
    channels,
    crew,
    get guard() {
      return guard;
    },
    get nowS() {
      return nowS;
    },
    get plugged() {
      return plugged;
    },
    get bootId() {
      return bootId;
    },
    advance(toS) {
      while (nowS < toS - 1e-9) {
        const streaming = rateHz > 0 && alive();
        let until = streaming ? nextSampleS : nowS + IDLE_STEP_S;
        const due = script[next];
        if (due !== undefined && due.atS < until) until = Math.max(nowS, due.atS);
        if (crew !== null && until > nowS + CREW_STEP_S) until = nowS + CREW_STEP_S;
        if (until > toS) until = toS;
        if (until > nowS) {
          crew?.step(site, nowS);
          site.stepTo(until);
          nowS = until;
        }
        if (due !== undefined && nowS >= due.atS - 1e-9) {
          next++;
          happen(due);
        }
        if (!alive()) continue;
        const take = streaming && rateHz > 0 && nowS >= nextSampleS - 1e-9;
        if (take || !streaming) convert();
        poll();
        if (take) {
          streamed++;
          nextSampleS = streamFromS + (streamed + 1) / rateHz;
          sample();
        }
      }
    },
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
      if (!alive()) return;
      decoder.push(bytes, sink);
    },
    fault(f) {
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
          reset();
          return;
        case 'reset':
          if (plugged) reset();
          return;
        case 'garbage':
          if (speaks()) chunks.push(Uint8Array.from({ length: f.bytes }, () => garbage.int(0, 255)));
          return;
        case 'silence':
          silentUntilS = nowS + f.seconds;
          return;
        case 'supply-sag':
          transducer.supplyV = 4.6;
          return;
      }
    },
    hand(h) {
      if (h.hand === 'valve') site.valve(h.open);
      else if (h.hand === 'regulator') site.regulator(h.bar);
      else if (h.hand === 'vent') site.vent(h.open);
      else site.couple(h.coupled);
    },
    press() {
      addEvent('button', null, null);
      guard.silence(nowS);
    },
  };

  function reset(): void {
    startTick = 0;
    seq = 0;
    boot();
  }

  return device;
}
