/**
 * The simulated device's firmware between two resets: commands in, lines out, timers, its own limit. It behaves as
 * the C reference of the protocol does. It knows counts and the time it is told, and nothing of the site.
 */
import { createDecoder } from '../link/decode.ts';
import { encodeFrame } from '../link/encode.ts';
import {
  type ChannelFrame,
  type CommandFrame,
  type DeviceEventCode,
  type DeviceFrame,
  type Frame,
  PROTOCOL_VERSION,
  type ReplyFrame,
  STATUS,
  type StrayReason,
  VERBS,
} from '../link/frames.ts';
import { DeviceGuard, type DeviceLimit, type GuardConfig } from './device-guard.ts';

export interface FirmwareConfig {
  readonly deviceId: string;
  readonly firmware: string;
  readonly channels: readonly ChannelFrame[];
  readonly supplyIndex: number | null;
  /** Most samples a second that converter and line carry. */
  readonly maxRateHz: number;
  readonly guard: GuardConfig;
  readonly clockPpm: number;
}

export interface Boot {
  readonly bootId: number;
  readonly atS: number;
  readonly startTick: number;
  readonly startSeq: number;
  /** The limit found in non-volatile memory. */
  readonly kept: DeviceLimit | null;
}

const HOST_SILENT_S = 3;
const BUTTON_HELD_S = 0.2;
/** Values of the event 'fault'. */
const FAULT_SUPPLY = 4;
const FAULT_SENSOR = 5;
/** Events that the device keeps while it cannot speak. */
const EVENTS = 4;
const TWO_32 = 4294967296;

export class Firmware {
  readonly guard: DeviceGuard;
  readonly bootId: number;
  /** What is in non-volatile memory now. */
  kept: DeviceLimit | null;
  /** 0: stopped. */
  rateHz = 0;
  /** When the next sample is due, while streaming. */
  nextSampleS = 0;
  private readonly config: FirmwareConfig;
  private readonly boot: Boot;
  private readonly out: (line: Uint8Array) => void;
  private readonly decoder = createDecoder('host');
  private nowS: number;
  private mute = false;
  private streamFromS = 0;
  private streamed = 0;
  private seq: number;
  private heard = false;
  private heardS = 0;
  private hostLost = false;
  private last: ReplyFrame | null = null;
  private events: {
    readonly code: DeviceEventCode;
    readonly channel: number | null;
    readonly value: number | null;
    readonly tick: number;
    readonly number: number;
  }[] = [];
  private eventNumber = 0;
  /** '' when a guard line is due. */
  private guardShown = '';
  private guardS = 0;
  private tripsSeen = 0;
  private returnsSeen = 0;
  private dropped = false;
  private supplyTold = false;
  private sensorTold = false;
  private buttonUntilS = Number.NEGATIVE_INFINITY;

  constructor(config: FirmwareConfig, boot: Boot, out: (line: Uint8Array) => void) {
    this.config = config;
    this.boot = boot;
    this.out = out;
    this.bootId = boot.bootId;
    this.kept = boot.kept;
    this.seq = boot.startSeq;
    this.nowS = boot.atS;
    this.guard = new DeviceGuard(config.guard);
    if (boot.kept !== null) this.guard.restore(boot.kept);
    this.event('boot', null, null);
  }

  receive(bytes: Uint8Array, nowS: number): void {
    this.nowS = nowS;
    this.decoder.push(bytes, {
      frame: (frame) => this.onFrame(frame),
      stray: (reason, stray) => this.onStray(reason, stray),
    });
  }

  /** Newest conversions of pressure and supply (over nominal; null: no such channel). */
  convert(nowS: number, counts: number, supplyRatio: number | null): void {
    this.nowS = nowS;
    if (supplyRatio !== null) this.guard.follow(supplyRatio);
    this.guard.step(nowS, counts);
  }

  /** Timers and lines that are due, samples apart. @param mute nothing leaves: the line is full or dead */
  poll(nowS: number, mute: boolean): void {
    this.nowS = nowS;
    this.mute = mute;
    const { guard, config } = this;
    if (this.heard && !this.hostLost && nowS - this.heardS >= HOST_SILENT_S) {
      this.hostLost = true;
      this.event('hostlost', null, null);
    }
    if (this.tripsSeen !== guard.trips) {
      this.tripsSeen = guard.trips;
      this.event('trip', config.guard.channel, guard.tripCounts);
    }
    if (this.returnsSeen !== guard.returns) {
      this.returnsSeen = guard.returns;
      this.event('return', config.guard.channel, guard.counts);
    }
    if (guard.supplyLow !== this.supplyTold) {
      this.supplyTold = guard.supplyLow;
      if (this.supplyTold) this.event('fault', config.supplyIndex, FAULT_SUPPLY);
    }
    const sensorBad = guard.counts !== null && guard.counts < config.guard.floor;
    if (sensorBad !== this.sensorTold) {
      this.sensorTold = sensorBad;
      if (sensorBad) this.event('fault', config.guard.channel, FAULT_SENSOR);
    }
    this.speak();
  }

  /** A sample is due: its number is taken whether or not its line can leave. */
  sample(take: () => readonly (number | null)[]): void {
    const seq = this.seq;
    this.seq = (this.seq + 1) % TWO_32;
    this.streamed++;
    this.nextSampleS = this.streamFromS + (this.streamed + 1) / this.rateHz;
    if (this.mute) {
      this.dropped = true;
      return;
    }
    const { guard } = this;
    let status = 0;
    if (this.dropped) status |= STATUS.dropped;
    if (guard.state !== 'unarmed') status |= STATUS.armed;
    if (guard.state === 'tripped' || guard.state === 'silenced') status |= STATUS.tripped;
    if (guard.supplyLow) status |= STATUS.supplyLow;
    if (this.hostLost) status |= STATUS.hostSilent;
    if (this.nowS < this.buttonUntilS) status |= STATUS.button;
    this.dropped = false;
    this.send({ t: 'S', seq, tick: this.tick(), counts: take(), status });
  }

  /** The button, pressed for a moment. */
  press(nowS: number): void {
    this.nowS = nowS;
    this.buttonUntilS = nowS + BUTTON_HELD_S;
    this.event('button', null, null);
    this.guard.silence(nowS);
  }

  private tick(): number {
    const ticks = (this.nowS - this.boot.atS) * 1e4 * (1 + this.config.clockPpm * 1e-6);
    return (this.boot.startTick + Math.round(ticks)) % TWO_32;
  }

  private send(frame: DeviceFrame): void {
    this.out(encodeFrame(frame));
  }

  private event(code: DeviceEventCode, channel: number | null, value: number | null): void {
    const number = this.eventNumber;
    this.eventNumber = (number + 1) & 0xffff;
    // What does not fit is lost, and the next number shows it.
    if (this.events.length < EVENTS) this.events.push({ code, channel, value, tick: this.tick(), number });
  }

  private speak(): void {
    // Silent until spoken to.
    if (!this.heard || this.mute) return;
    for (const e of this.events) this.send({ t: 'E', ...e });
    this.events = [];
    const { state, limit } = this.guard;
    if (this.guardShown === state && this.nowS - this.guardS < 1) return;
    const armed = state !== 'unarmed' && limit !== null;
    this.send({
      t: 'G',
      tick: this.tick(),
      state: armed ? state : 'unarmed',
      channel: armed ? limit.channel : null,
      limitCounts: armed ? limit.counts : null,
      limitMbar: armed ? limit.mbar : null,
      sounder: state === 'tripped' ? 1 : 0,
    });
    this.guardShown = state;
    this.guardS = this.nowS;
  }

  private hello(): void {
    const { config } = this;
    this.send({
      t: 'H',
      version: PROTOCOL_VERSION,
      deviceId: config.deviceId,
      firmware: config.firmware,
      bootId: this.bootId,
      uptime: this.tick(),
      channels: config.channels.length,
      maxRateHz: config.maxRateHz,
    });
    for (const frame of config.channels) this.send(frame);
  }

  private signOfLife(isHello: boolean): void {
    if (!this.heard) {
      this.heard = true;
      this.guardShown = '';
      // A hello already tells boot id and uptime; to any other command the start has to be announced.
      if (isHello && this.events[0]?.code === 'boot') this.events.shift();
    } else if (this.hostLost) this.event('hostback', null, null);
    this.hostLost = false;
    this.heardS = this.nowS;
  }

  private onFrame(frame: Frame): void {
    if (frame.t !== 'K') return;
    const isHello = frame.command.verb === 'hello';
    this.signOfLife(isHello);
    // A repeated number is answered again and not carried out twice.
    if (this.last === null || this.last.command !== frame.number) this.last = this.carryOut(frame);
    if (this.mute) return;
    this.send(this.last);
    if (isHello) this.hello();
    this.speak();
  }

  private onStray(reason: StrayReason, bytes: Uint8Array): void {
    // A whole line with the right sum that is no command here is answered where its number can be read.
    if (reason !== 'form') return;
    const m = /^K,(0|[1-9]\d{0,4}),([a-z]*)/.exec(String.fromCharCode(...bytes));
    if (m === null || Number(m[1]) > 0xffff) return;
    this.signOfLife(false);
    const result = Object.hasOwn(VERBS, m[2]!) ? 'range' : 'unknown';
    this.last = { t: 'R', command: Number(m[1]), result, value: null };
    if (!this.mute) this.send(this.last);
  }

  private carryOut(frame: CommandFrame): ReplyFrame {
    const k = frame.command;
    const { guard, nowS } = this;
    const reply = (result: ReplyFrame['result'], value: number | null = null): ReplyFrame => ({
      t: 'R',
      command: frame.number,
      result,
      value,
    });
    switch (k.verb) {
      case 'start': {
        const most = this.config.maxRateHz;
        this.rateHz = Math.min(k.rateHz, most);
        this.streamFromS = nowS;
        this.streamed = 0;
        this.nextSampleS = nowS + 1 / this.rateHz;
        return reply(k.rateHz > most ? 'clamped' : 'ok', this.rateHz);
      }
      case 'stop':
        this.rateHz = 0;
        return reply('ok');
      case 'limit': {
        const result = guard.set(nowS, { channel: k.channel, counts: k.counts, mbar: k.mbar });
        if (result === 'ok') this.kept = guard.limit;
        this.guardShown = '';
        return reply(result, guard.state === 'unarmed' ? null : (guard.limit?.counts ?? null));
      }
      case 'disarm': {
        const result = guard.disarm(nowS);
        if (result === 'ok') this.kept = null;
        this.guardShown = '';
        return reply(result);
      }
      case 'silence':
        guard.silence(nowS);
        return reply('ok');
      case 'read':
        this.guardShown = '';
        return reply('ok');
      case 'hello':
      case 'beat':
        return reply('ok');
    }
  }
}
