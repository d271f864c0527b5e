import { createDecoder } from './decode.ts';
import { encodeFrame } from './encode.ts';
import type { DeviceFrame, Frame, GuardFrame, HostVerb, ReplyFrame, StrayReason } from './frames.ts';
import { createGreetingCollector, type Greeting, refusal } from './greeting.ts';
import { createGuardWatch, type LimitAnswer, setLimit } from './limit.ts';
import { type Port, PortError } from './ports/port.ts';
import { type AskOptions, createQueue } from './queue.ts';
import type { LinkError, LinkState } from './status.ts';
import { pause, type Timers } from './timers.ts';

/** What a session tells its owner. tUs is the arrival on the timers' clock; a chunk's frames share it. */
export interface SessionSink {
  frame(frame: DeviceFrame, tUs: number): void;
  stray(reason: StrayReason, bytes: Uint8Array, tUs: number): void;
  /** Only on a change. */
  state(state: LinkState): void;
  error(error: LinkError, detail: string): void;
  /** A complete hello of a device that can be used: at connecting, after a reset, after a replug. */
  greeted?(greeting: Greeting): void;
}

export interface SessionOptions {
  readonly rateHz: number;
  /** The device that the run began with; null: whichever greets first. */
  readonly deviceId: string | null;
  /** First command number; random, so that a device that stayed on does not take it for a repeated one. */
  readonly firstCommand: number;
}

export class LinkFault extends Error {
  override readonly name = 'LinkFault';
  constructor(
    readonly code: LinkError,
    message: string,
  ) {
    super(message);
  }
}

export interface Session {
  readonly state: LinkState;
  readonly error: LinkError | null;
  readonly greeting: Greeting | null;
  readonly guard: GuardFrame | null;
  /** The rate that the device said it keeps, Hz. */
  readonly rateHz: number | null;
  readonly frames: number;
  readonly strayBytes: number;
  /** Opens, greets and starts the stream. Rejects with a LinkFault; from then on nothing is tried again. */
  connect(): Promise<void>;
  /** Binds the session to one device (a run began), or frees it. */
  expect(deviceId: string | null): void;
  setRate(rateHz: number): Promise<void>;
  ask(verb: HostVerb, options?: AskOptions): Promise<ReplyFrame>;
  /** Arms or lowers the device's own limit and reads it back. Never rejects: a dead line is 'not kept'. */
  limit(channel: number, counts: number, mbar: number): Promise<LimitAnswer>;
  /** Stops the stream where the device still listens, and closes. Always settles. */
  close(): Promise<void>;
}

/** A board that resets when its port opens needs up to 2 s for its boot loader: hello is repeated past that. */
const HELLO_EVERY_MS = 400;
const HELLO_TRIES = 10;
const BEAT_MS = 1000;
/** No sample for so long while streaming: the device may have been reset, so say hello and start again. */
const QUIET_US = 1_000_000;
const BACK_OFF_MS = [200, 300, 500, 1000];

/**
 * One conversation with one device over one port: hello with retries, identity, stream, heartbeat, recovery
 * after a reset, reopening after an unplug. The state is a plain string of status.ts; time comes from `timers`.
 */
export function createSession(
  port: Port,
  timers: Timers,
  sink: SessionSink,
  options: SessionOptions,
): Session {
  let state: LinkState = 'idle';
  let error: LinkError | null = null;
  let greeting: Greeting | null = null;
  let rateAsked = options.rateHz;
  let rateHz: number | null = null;
  let deviceId = options.deviceId;
  let frames = 0;
  let strayBytes = 0;
  let lastSampleUs = 0;
  // Each opening has a number: whatever an older one still wants to say or do is ignored.
  let opening = 0;
  let wanted = false;
  let starting = false;
  let cancelBeat = (): void => {};
  let cancelRetry = (): void => {};
  let heard: (g: Greeting) => void = () => {};
  const collector = createGreetingCollector();
  const guard = createGuardWatch(timers);
  const queue = createQueue((frame) => port.write(encodeFrame(frame)), timers, options.firstCommand);

  function to(next: LinkState): void {
    if (next === state) return;
    state = next;
    sink.state(next);
  }

  function fail(code: LinkError, detail: string): void {
    error = code;
    sink.error(code, detail);
  }

  function onFrame(frame: DeviceFrame, tUs: number): void {
    frames++;
    if (frame.t === 'S') lastSampleUs = tUs;
    sink.frame(frame, tUs);
    switch (frame.t) {
      case 'R':
        queue.reply(frame);
        return;
      case 'G':
        guard.take(frame);
        return;
      case 'E':
        if (frame.code === 'boot' && state === 'streaming') void regreet(opening);
        return;
      case 'H':
      case 'C': {
        const complete = collector.take(frame);
        if (complete !== null) heard(complete);
        return;
      }
      case 'S':
        return;
      default:
        frame satisfies never;
    }
  }

  function onGone(detail: string): void {
    cancelBeat();
    guard.forget();
    starting = false;
    opening++;
    queue.drop('port gone');
    to('lost');
    fail('port-gone', detail);
    // The port gave itself back; it is not closed, so that it can still tell of a device that comes.
    retry(0);
  }

  function retry(turn: number): void {
    if (!wanted) return;
    cancelRetry();
    cancelRetry = timers.after(BACK_OFF_MS[Math.min(turn, BACK_OFF_MS.length - 1)]!, () => {
      void reopen(turn + 1);
    });
  }

  /** After a loss: opens again for as long as it takes. The state stays 'lost' until the device has answered. */
  async function reopen(turn: number): Promise<void> {
    if (!wanted) return;
    try {
      await open();
    } catch (cause) {
      if (!wanted || (cause instanceof LinkFault && cause.code === 'port-gone')) {
        to('lost');
        retry(turn);
        return;
      }
      const code = cause instanceof LinkFault ? cause.code : 'open-failed';
      if (error !== code) fail(code, String(cause));
      to(code === 'open-failed' || code === 'port-busy' ? 'retrying' : 'lost');
      await port.close();
      retry(turn);
    }
  }

  async function open(): Promise<void> {
    const mine = ++opening;
    const decoder = createDecoder('device');
    collector.reset();
    const decoded = {
      frame: (frame: Frame) => {
        if (frame.t !== 'K') onFrame(frame, arrivalUs);
      },
      stray: (reason: StrayReason, bytes: Uint8Array) => {
        strayBytes += bytes.length;
        sink.stray(reason, bytes, arrivalUs);
      },
    };
    let arrivalUs = timers.nowUs();
    try {
      await port.open({
        bytes(chunk) {
          if (mine !== opening) return;
          arrivalUs = timers.nowUs();
          decoder.push(chunk, decoded);
        },
        recovered(name) {
          if (mine === opening) fail('read-recovered', name);
        },
        gone(name) {
          if (mine !== opening) return;
          arrivalUs = timers.nowUs();
          decoder.end(decoded);
          onGone(name);
        },
        arrived() {
          if (state === 'lost' || state === 'retrying') retry(0);
        },
      });
    } catch (cause) {
      throw new LinkFault(cause instanceof PortError ? cause.code : 'open-failed', String(cause));
    }
    if (mine !== opening) throw new LinkFault('port-gone', 'closed while it was opened');
    if (state !== 'lost' && state !== 'retrying') to('greeting');
    await greet(mine);
    await start(mine);
    beat(mine);
  }

  /** Says hello until the device answers with every line of its own. */
  async function greet(mine: number): Promise<void> {
    let got: Greeting | null = null;
    heard = (g) => {
      got = g;
    };
    // The device may answer at any moment, also to a hello thought lost: poll a little finer than we ask.
    for (let n = 0; n < HELLO_TRIES && got === null && mine === opening; n++) {
      queue.ask({ verb: 'hello' }, { attempts: 1, timeoutMs: HELLO_EVERY_MS }).catch(() => undefined);
      for (let k = 0; k < 8 && got === null && mine === opening; k++) await pause(timers, HELLO_EVERY_MS / 8);
    }
    if (mine !== opening) throw new LinkFault('port-gone', 'gone while greeting');
    const greeted: Greeting | null = got;
    if (greeted === null) throw new LinkFault('no-hello', 'no hello came');
    accept(greeted);
    heard = (g) => {
      if (mine !== opening) return;
      // An unasked hello: the device started anew, or another program asked. Take it and stream again.
      const reset = g.hello.bootId !== greeting?.hello.bootId;
      try {
        accept(g);
      } catch (cause) {
        // Another device answers on the same line: it is not ours to stream from.
        void port.close();
        onGone(String(cause));
        return;
      }
      if (reset) void start(mine).catch(() => undefined);
    };
  }

  function accept(g: Greeting): void {
    const why = refusal(g, deviceId);
    if (why !== null) {
      if (error !== why) fail(why, g.hello.deviceId);
      throw new LinkFault(why, `device ${g.hello.deviceId}, protocol ${g.hello.version}`);
    }
    greeting = g;
    sink.greeted?.(g);
  }

  async function start(mine: number): Promise<void> {
    if (starting) return;
    starting = true;
    const asked = rateAsked;
    try {
      const reply = await queue.ask({ verb: 'start', rateHz: asked });
      if (mine !== opening) return;
      if (reply.result !== 'ok' && reply.result !== 'clamped')
        throw new LinkFault('command-failed', `start: ${reply.result}`);
      rateHz = reply.value ?? asked;
      lastSampleUs = timers.nowUs();
      error = null;
      to('streaming');
    } catch (cause) {
      if (mine !== opening) throw new LinkFault('port-gone', 'gone while starting');
      // The device greets but does not stream: the beat goes on and asks again. One that is only silent is not
      // known to have stopped.
      fail('command-failed', String(cause));
      if (state !== 'streaming' || cause instanceof LinkFault) to('stopped');
    } finally {
      starting = false;
    }
    // Another rate was asked for meanwhile.
    if (asked !== rateAsked && mine === opening) await start(mine);
  }

  async function regreet(mine: number): Promise<void> {
    const before = greeting;
    await queue.ask({ verb: 'hello' }, { attempts: 2 }).catch(() => undefined);
    // A reset device was started by its hello; one that only stopped keeps its boot id and is started here.
    if (mine === opening && greeting?.hello.bootId === before?.hello.bootId)
      await start(mine).catch(() => undefined);
  }

  function beat(mine: number): void {
    cancelBeat();
    cancelBeat = timers.after(BEAT_MS, () => {
      if (mine !== opening) return;
      if (queue.waiting === 0) {
        queue.ask({ verb: 'beat' }, { attempts: 1 }).catch(() => undefined);
        if (state === 'stopped' || timers.nowUs() - lastSampleUs > QUIET_US) void regreet(mine);
      }
      beat(mine);
    });
  }

  return {
    get state() {
      return state;
    },
    get error() {
      return error;
    },
    get greeting() {
      return greeting;
    },
    get guard() {
      return guard.newest;
    },
    get rateHz() {
      return rateHz;
    },
    get frames() {
      return frames;
    },
    get strayBytes() {
      return strayBytes;
    },
    async connect() {
      wanted = true;
      error = null;
      to('opening');
      try {
        await open();
      } catch (cause) {
        const fault = cause instanceof LinkFault ? cause : new LinkFault('open-failed', String(cause));
        const lost = state === 'lost';
        wanted = false;
        opening++;
        cancelRetry();
        queue.drop(fault.message);
        await port.close();
        if (error !== fault.code && !lost) fail(fault.code, fault.message);
        to('idle');
        throw fault;
      }
    },
    expect(id) {
      deviceId = id;
    },
    async setRate(hz) {
      if (hz === rateAsked && rateHz !== null) return;
      rateAsked = hz;
      if (state === 'streaming' || state === 'stopped') await start(opening);
    },
    ask: (verb, ask) => queue.ask(verb, ask),
    async limit(channel, counts, mbar) {
      try {
        const answer = await setLimit(queue, guard, channel, counts, mbar);
        if (!answer.kept) fail('limit-not-kept', `reads back ${answer.counts ?? 'nothing'}`);
        return answer;
      } catch (cause) {
        fail('limit-not-kept', String(cause));
        return { kept: false, counts: null, mbar: null };
      }
    },
    async close() {
      const open = state === 'streaming' || state === 'stopped';
      wanted = false;
      cancelBeat();
      cancelRetry();
      to('closing');
      if (open) await queue.ask({ verb: 'stop' }, { attempts: 1, timeoutMs: 200 }).catch(() => undefined);
      opening++;
      queue.drop('closed');
      await port.close();
      to('idle');
    },
  };
}
