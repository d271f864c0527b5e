import { encodeFrame } from './encode.ts';
import { LinkFault } from './fault.ts';
import type { DeviceFrame, GuardFrame, HostVerb, Quantity, ReplyFrame, StrayReason } from './frames.ts';
import { type Greeting, type Identity, refusal } from './greeting.ts';
import { createGuardWatch, type LimitAnswer, setLimit } from './limit.ts';
import type { Raw } from './maps/raw.ts';
import type { MapDoubt } from './maps/translate.ts';
import { createOpening, type Opening, type OpeningSink, type OpeningSite } from './opening.ts';
import type { OpenHow, Port } from './ports/port.ts';
import { type AskOptions, CommandError, createQueue } from './queue.ts';
import type { LinkError, LinkState } from './status.ts';
import type { Timers } from './timers.ts';

/** What a session tells its owner. tUs is the arrival on the timers' clock; a chunk's frames share it. */
export interface SessionSink {
  /** @param raw where the source does not speak the protocol: what the frame was made of */
  frame(frame: DeviceFrame, tUs: number, raw?: Raw): void;
  stray(reason: StrayReason, bytes: Uint8Array, tUs: number): void;
  /** Only on a change. */
  state(state: LinkState): void;
  error(error: LinkError, detail: string): void;
  /** The device takes no command, or takes them again. Only on a change. */
  answers?(ok: boolean): void;
  /** A complete hello of a device that can be used: at connecting, after a reset, after a replug. */
  greeted?(greeting: Greeting): void;
}

export interface SessionOptions {
  readonly rateHz: number;
  /** The device that the run began with; null: whichever greets first. */
  readonly expected: Identity | null;
  /** First command number; random, so that a device that stayed on does not take it for a repeated one. */
  readonly firstCommand: number;
  /** Speeds to try at the first connection, bits a second, in this order; absent: the port has none. */
  readonly speeds?: readonly number[];
  /** A source that does not speak the protocol: how it is read instead, and how its port is opened. */
  readonly source?: SourceOptions;
  /** What it is read for; left out: a pressure. */
  readonly needs?: Quantity;
}

export interface SourceOptions {
  readonly open: (site: OpeningSite) => Opening;
  readonly framing: OpenHow['framing'];
}

export interface Session {
  readonly state: LinkState;
  readonly error: LinkError | null;
  readonly greeting: Greeting | null;
  readonly guard: GuardFrame | null;
  /** The device that answers in the place of the one that is expected, or that one with another scale; null: none does. */
  readonly other: Greeting | null;
  /** The rate that the device said it keeps, Hz. */
  readonly rateHz: number | null;
  readonly frames: number;
  readonly strayBytes: number;
  /** The speed that is tried or in use, bits a second; null: not opened, or the port has none. */
  readonly baudRate: number | null;
  /** The newest line that was no frame, for reading; null: none since the last frame. */
  readonly strayLine: string | null;
  /** What speaks against the newest values, where a reading map makes them. */
  readonly doubts: readonly MapDoubt[];
  /**
   * Opens, greets and starts the stream, at one speed after the other. Rejects with a LinkFault; from then on nothing
   * is tried again.
   */
  connect(): Promise<void>;
  /**
   * Binds the session to one device (a run began, or took another), or frees it. That one is met at once where it
   * waits; another that streams is let go.
   */
  expect(identity: Identity | null): void;
  setRate(rateHz: number): Promise<void>;
  ask(verb: HostVerb, options?: AskOptions): Promise<ReplyFrame>;
  /** Arms or lowers the device's own limit and reads it back. Never rejects: a dead line is 'not kept'. */
  limit(channel: number, counts: number, mbar: number): Promise<LimitAnswer>;
  /** Stops the stream where the device still listens, and closes. Always settles. */
  close(): Promise<void>;
}

/** Past the boot loader of a board that resets at the opening: at the likeliest speed well, at the others just. */
const HELLOS_FIRST = 10;
const HELLOS_NEXT = 7;
/** Stands for 'none': what has no speed ignores it. */
const NO_SPEED = 115_200;
/** What tells more where several speeds failed, each in its way. */
const TELLING: readonly LinkError[] = ['not-protocol', 'speed', 'no-hello', 'open-failed'];
const BACK_OFF_MS = [200, 300, 500, 1000];

/** It answers, and its counts are not those of the device that was read. */
const isStranger = (why: LinkError | null): why is 'other-device' | 'rescaled' =>
  why === 'other-device' || why === 'rescaled';

const faultOf = (cause: unknown): LinkFault =>
  cause instanceof LinkFault ? cause : new LinkFault('open-failed', String(cause));

/**
 * One conversation with one device over one port, through as many openings as it takes: identity, reopening after
 * an unplug, commands. The state is a plain string of status.ts; time comes from `timers`.
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
  let other: Greeting | null = null;
  let rateAsked = options.rateHz;
  let rateHz: number | null = null;
  let { expected } = options;
  let opening: Opening | null = null;
  const speeds = options.speeds ?? [NO_SPEED];
  let baudRate = speeds[0]!;
  /** Openings after the first connection: where several ports fit, each tries the next one. */
  let reopenings = 0;
  /** What came instead of frames, where nothing is tried any more. */
  let failedLine: string | null = null;
  /** What came in the openings before this one. */
  const before = { frames: 0, strayBytes: 0 };
  /** After a loss the port is opened again, until the session is closed. */
  let wanted = false;
  let cancelRetry = (): void => {};
  /** Another object for each time that the port is open; null: it is not, and what is asked reaches nobody. */
  let line: object | null = null;
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

  const heard: OpeningSink = {
    frame(frame, tUs, raw) {
      sink.frame(frame, tUs, raw);
      if (frame.t === 'G') guard.take(frame);
    },
    stray: (reason, bytes, tUs) => sink.stray(reason, bytes, tUs),
    opened() {
      line = {};
      // A lost device stays lost until it has answered.
      if (state !== 'lost' && state !== 'retrying') to('greeting');
    },
    greeted(complete) {
      const why = refusal(complete, expected, options.needs);
      other = isStranger(why) ? complete : null;
      if (why !== null) {
        const { hello } = complete;
        if (error !== why) fail(why, hello.deviceId);
        throw new LinkFault(why, `device ${hello.deviceId}, protocol ${hello.version}`);
      }
      greeting = complete;
      sink.greeted?.(complete);
    },
    streaming(hz) {
      rateHz = hz;
      error = null;
      to('streaming');
    },
    stopped: () => to('stopped'),
    answers(ok) {
      if (!ok) fail('command-failed', 'no command is answered');
      else if (error === 'command-failed') error = null;
      sink.answers?.(ok);
    },
    fault: fail,
    gone(why, detail) {
      line = null;
      guard.forget();
      queue.drop('port gone');
      to('lost');
      if (error !== why) fail(why, detail);
      // The port gave itself back; it is not closed, so that it can still tell of a device that comes.
      retry(0);
    },
    arrived() {
      if (state === 'lost' || state === 'retrying') retry(0);
    },
  };

  /** Ends the opening that was and begins the next; one that fails has ended. */
  async function open(turn: number, hellos: number): Promise<void> {
    if (opening !== null) {
      opening.end();
      before.frames += opening.frames;
      before.strayBytes += opening.strayBytes;
    }
    const { source } = options;
    const mine = (source?.open ?? createOpening)({
      port,
      timers,
      queue,
      sink: heard,
      how: { baudRate, turn, ...(source?.framing === undefined ? {} : { framing: source.framing }) },
      hellos,
      rateHz: () => rateAsked,
    });
    opening = mine;
    try {
      await mine.open();
    } catch (cause) {
      line = null;
      mine.end();
      throw cause;
    }
  }

  /** One speed after the other, until a device answers or what comes can be read: then the speed was right. */
  async function search(): Promise<void> {
    let told = new LinkFault('port-gone', 'closed before it was opened');
    // Tried last, so that a second connect() begins where the first one found something.
    const order = [...new Set([baudRate, ...speeds])];
    for (const [n, speed] of order.entries()) {
      if (!wanted) break;
      baudRate = speed;
      try {
        await open(0, n === 0 ? HELLOS_FIRST : HELLOS_NEXT);
        return;
      } catch (cause) {
        const fault = faultOf(cause);
        if (n === 0 || !fault.otherSpeed || TELLING.indexOf(fault.code) < TELLING.indexOf(told.code)) {
          told = fault;
          failedLine = opening?.heard.line ?? null;
        }
        if (!fault.otherSpeed) break;
      }
      queue.drop('another speed is tried');
      await port.close();
    }
    throw told;
  }

  function retry(turn: number): void {
    if (!wanted) return;
    cancelRetry();
    cancelRetry = timers.after(BACK_OFF_MS[Math.min(turn, BACK_OFF_MS.length - 1)]!, () => {
      void reopen(turn + 1);
    });
  }

  /** After a loss: opens again for as long as it takes. */
  async function reopen(turn: number): Promise<void> {
    if (!wanted) return;
    try {
      await open(++reopenings, HELLOS_FIRST);
    } catch (cause) {
      if (!wanted || (cause instanceof LinkFault && cause.code === 'port-gone')) {
        to('lost');
        retry(turn);
        return;
      }
      const { code } = faultOf(cause);
      if (error !== code) fail(code, String(cause));
      to(code === 'open-failed' || code === 'port-busy' ? 'retrying' : 'lost');
      await port.close();
      retry(turn);
    }
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
    get other() {
      return other;
    },
    get rateHz() {
      return rateHz;
    },
    get frames() {
      return before.frames + (opening?.frames ?? 0);
    },
    get strayBytes() {
      return before.strayBytes + (opening?.strayBytes ?? 0);
    },
    get baudRate() {
      return opening === null || options.speeds === undefined ? null : baudRate;
    },
    get strayLine() {
      return failedLine ?? opening?.heard.line ?? null;
    },
    get doubts() {
      return opening?.doubts ?? [];
    },
    async connect() {
      wanted = true;
      error = null;
      failedLine = null;
      to('opening');
      try {
        await search();
      } catch (cause) {
        const fault = faultOf(cause);
        const lost = state === 'lost';
        wanted = false;
        cancelRetry();
        queue.drop(fault.message);
        await port.close();
        if (error !== fault.code && !lost) fail(fault.code, fault.message);
        to('idle');
        throw fault;
      }
    },
    expect(identity) {
      expected = identity;
      if (other !== null && refusal(other, identity, options.needs) === null) {
        other = null;
        error = null;
        // What was refused as another's is never waited for in another state.
        if (state === 'lost') retry(0);
        return;
      }
      const why = greeting === null ? null : refusal(greeting, identity, options.needs);
      if (opening?.started && isStranger(why)) {
        other = greeting;
        greeting = null;
        opening.end();
        void port.close();
        heard.gone(why, other?.hello.deviceId ?? '');
      }
    },
    async setRate(hz) {
      if (hz === rateAsked && rateHz !== null) return;
      rateAsked = hz;
      if (opening?.started) await opening.start();
    },
    ask: (verb, ask) =>
      options.source === undefined
        ? queue.ask(verb, ask)
        : // A command would only disturb the bus.
          Promise.reject(new CommandError('no-answer', 'the source takes no commands')),
    async limit(channel, counts, mbar) {
      // It keeps none, which is said of it all along: no fault.
      if (options.source !== undefined) return { kept: false, counts: null, mbar: null };
      const on = line;
      const notKept = (detail: string): void => {
        // Where the line went meanwhile, that is what is the matter, and is said already: the device said nothing of the limit.
        if (on !== null && on === line) fail('limit-not-kept', detail);
      };
      try {
        const answer = await setLimit(queue, guard, channel, counts, mbar);
        if (!answer.kept) notKept(`reads back ${answer.counts ?? 'nothing'}`);
        return answer;
      } catch (cause) {
        notKept(String(cause));
        return { kept: false, counts: null, mbar: null };
      }
    },
    async close() {
      wanted = false;
      cancelRetry();
      to('closing');
      line = null;
      if (opening?.started) await opening.stop();
      opening?.end();
      queue.drop('closed');
      await port.close();
      to('idle');
    },
  };
}
