import { createDecoder } from '../decode.ts';
import { encodeFrame } from '../encode.ts';
import type { ChannelFrame, CommandFrame, DeviceFrame, HelloFrame, ReplyFrame } from '../frames.ts';
import { type Port, PortError, type PortEvents } from '../ports/port.ts';

/** 4-20 mA on 16 bits over 25 mA, 0-6 bar, read 100 times a second. */
export const CURRENT_LOOP: ChannelFrame = {
  t: 'C',
  index: 0,
  quantity: 'press',
  place: 'hose',
  signal: 'current',
  partner: null,
  bits: 16,
  rawLo: 0,
  rawHi: 65_535,
  elLo: 0,
  elHi: 25_000,
  rangeLo: 0,
  rangeHi: 600_000,
  rateMilliHz: 100_000,
};

/**
 * A scripted device for the tests of the layers above the codec: answers every command as the specification
 * says, remembers the last number, streams only when a test asks for a sample. It can be deaf, mute or reset.
 */
export interface ScriptedDevice {
  readonly hello: HelloFrame;
  readonly heard: CommandFrame[];
  /** Commands that were carried out, repeats left out. */
  readonly done: CommandFrame[];
  streaming: boolean;
  deaf: boolean;
  /** Bytes from the host. */
  receive(bytes: Uint8Array): void;
  /** Sends one sample, if the stream runs. */
  sample(counts?: number, tickStep?: number): void;
  /** Says who it is, asked or not. */
  greet(): void;
  send(frame: DeviceFrame): void;
  reset(bootId: number, announce?: boolean): void;
}

export function createScriptedDevice(
  out: (bytes: Uint8Array) => void,
  changes: Partial<HelloFrame> = {},
  channel: Partial<ChannelFrame> = {},
): ScriptedDevice {
  let seq = 0;
  let tick = 1000;
  let last: { number: number; reply: ReplyFrame } | null = null;
  let limit: { channel: number; counts: number; mbar: number } | null = null;
  const decoder = createDecoder('host');

  function guard(): void {
    device.send({
      t: 'G',
      tick,
      state: limit === null ? 'unarmed' : 'armed',
      channel: limit?.channel ?? null,
      limitCounts: limit?.counts ?? null,
      limitMbar: limit?.mbar ?? null,
      sounder: 0,
    });
  }

  function carryOut(frame: CommandFrame): ReplyFrame {
    const reply = (result: ReplyFrame['result'], value: number | null = null): ReplyFrame => ({
      t: 'R',
      command: frame.number,
      result,
      value,
    });
    const c = frame.command;
    device.done.push(frame);
    switch (c.verb) {
      case 'start':
        device.streaming = true;
        return c.rateHz > device.hello.maxRateHz
          ? reply('clamped', device.hello.maxRateHz)
          : reply('ok', c.rateHz);
      case 'stop':
        device.streaming = false;
        return reply('ok');
      case 'limit':
        limit = { channel: c.channel, counts: c.counts, mbar: c.mbar };
        return reply('ok', c.counts);
      case 'disarm':
        limit = null;
        return reply('ok');
      case 'hello':
      case 'beat':
      case 'read':
      case 'silence':
        return reply('ok');
    }
  }

  const device: ScriptedDevice = {
    hello: {
      t: 'H',
      version: 1,
      deviceId: 'sb-7',
      firmware: '1.0',
      bootId: 41,
      uptime: 1000,
      channels: 1,
      maxRateHz: 200,
      ...changes,
    },
    heard: [],
    done: [],
    streaming: false,
    deaf: false,
    receive(bytes) {
      decoder.push(bytes, {
        frame(frame) {
          if (frame.t !== 'K' || device.deaf) return;
          device.heard.push(frame);
          if (last === null || last.number !== frame.number)
            last = { number: frame.number, reply: carryOut(frame) };
          device.send(last.reply);
          if (frame.command.verb === 'hello') device.greet();
          if (frame.command.verb === 'read' || frame.command.verb === 'limit') guard();
        },
        stray() {},
      });
    },
    greet() {
      device.send(device.hello);
      for (let i = 0; i < device.hello.channels; i++) device.send({ ...CURRENT_LOOP, ...channel, index: i });
    },
    sample(counts = 13_107, tickStep = 200) {
      tick += tickStep;
      seq++;
      if (device.streaming)
        device.send({ t: 'S', seq, tick, counts: [counts], status: limit === null ? 0 : 4 });
    },
    send(frame) {
      out(encodeFrame(frame));
    },
    reset(bootId, announce = false) {
      seq = 0;
      tick = 0;
      last = null;
      limit = null;
      device.streaming = false;
      Object.assign(device.hello, { bootId, uptime: 0 });
      if (announce) device.send({ t: 'E', number: 0, tick: 0, code: 'boot', channel: null, value: null });
    },
  };
  return device;
}

/** A port whose other end is a scripted device; the test pulls and plugs it. */
export function createScriptedPort(changes: Partial<HelloFrame> = {}, channel: Partial<ChannelFrame> = {}) {
  let events: PortEvents | null = null;
  const state = { present: true, tried: 0, opened: 0, busy: false };
  const device = createScriptedDevice((bytes) => events?.bytes(bytes), changes, channel);
  const port: Port = {
    identity: { kind: 'rig' },
    async open(to) {
      state.tried++;
      if (state.busy) throw new PortError('port-busy', 'held by another');
      if (!state.present) throw new PortError('port-gone', 'not there');
      state.opened++;
      events = to;
    },
    async write(bytes) {
      if (events === null) throw new PortError('write-failed', 'closed');
      device.receive(bytes);
    },
    async close() {
      events = null;
    },
  };
  return {
    port,
    device,
    state,
    pull() {
      state.present = false;
      const e = events;
      events = null;
      e?.gone('NetworkError');
    },
    garbage(bytes: Uint8Array) {
      events?.bytes(bytes);
    },
    recovered(name: string) {
      events?.recovered(name);
    },
  };
}
