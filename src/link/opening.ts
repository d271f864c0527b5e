import { createDecoder } from './decode.ts';
import { LinkFault } from './fault.ts';
import type { DeviceFrame, Frame, StrayReason } from './frames.ts';
import { createGreetingCollector, type Greeting } from './greeting.ts';
import { createHearing, type Heard } from './hearing.ts';
import { startHeartbeat } from './heartbeat.ts';
import type { Raw } from './maps/raw.ts';
import type { MapDoubt } from './maps/translate.ts';
import { type OpenHow, type Port, PortError } from './ports/port.ts';
import type { CommandQueue } from './queue.ts';
import type { LinkError } from './status.ts';
import { pause, type Timers } from './timers.ts';

/**
 * What an opening tells the session. Once it has ended nothing more comes but `arrived`, and what was left of the
 * chunk of bytes that ended it.
 */
export interface OpeningSink {
  /** @param raw where the source does not speak the protocol: what the frame was made of */
  frame(frame: DeviceFrame, tUs: number, raw?: Raw): void;
  stray(reason: StrayReason, bytes: Uint8Array, tUs: number): void;
  /** The port is open; who answers is not known yet. */
  opened(): void;
  /** A complete hello. @throws LinkFault when this device cannot be used */
  greeted(greeting: Greeting): void;
  /** @param rateHz that the device said it keeps */
  streaming(rateHz: number): void;
  /** The device greets and does not stream. */
  stopped(): void;
  fault(code: LinkError, detail: string): void;
  /** The device takes no command, though it may stream; or it does again. Only on a change. */
  answers(ok: boolean): void;
  /** The port went away or hangs, or another device answers on it: the opening has ended. */
  gone(why: LinkError, detail: string): void;
  /** A device that may be the lost one has come: opening again is worth a try. */
  arrived(): void;
}

export interface OpeningSite {
  readonly port: Port;
  readonly timers: Timers;
  readonly queue: CommandQueue;
  readonly sink: OpeningSink;
  readonly how: OpenHow;
  /** How often hello is said before the opening is given up, HELLO_EVERY_MS apart. */
  readonly hellos: number;
  /** The rate that is wanted now, Hz. */
  rateHz(): number;
}

/**
 * One opening of the port, from open() to end(): hello with retries, stream, heartbeat, recovery after a reset.
 * Everything that is true of one opening only lives and ends with it; the session makes a new one to try again.
 */
export interface Opening {
  /** Frames and stray bytes that came in this opening. */
  readonly frames: number;
  readonly strayBytes: number;
  /** The device was greeted and is asked to stream. */
  readonly started: boolean;
  /** What came since the last frame and was none. */
  readonly heard: Pick<Heard, 'line'>;
  /** What speaks against the newest values, where a reading map makes them. */
  readonly doubts: readonly MapDoubt[];
  /** Opens, greets and starts the stream. Rejects with a LinkFault. */
  open(): Promise<void>;
  /** Asks for the rate that is wanted now. Rejects with a LinkFault when the opening ended meanwhile. */
  start(): Promise<void>;
  /** Asks the device to end its stream. Always settles; frames still come until end(). */
  stop(): Promise<void>;
  /** Whatever it still wants to say or do is ignored from here on. */
  end(): void;
}

/** A board that resets when its port opens needs up to 2 s for its boot loader: hello is repeated past that. */
const HELLO_EVERY_MS = 400;
/** The device may answer at any moment, also to a hello thought lost: looked for a little finer than asked. */
const LOOKS_PER_HELLO = 8;
/** No sample for so long while streaming: the device may have been reset, so say hello and start again. */
const QUIET_US = 1_000_000;
/** No command answered for so long, looked for once a second: told within three seconds of the last answer. */
const UNANSWERED_US = 1_500_000;
/** Nothing at all for so long, in spite of beats and hellos: the port hangs, and a new opening may heal it. */
const HUNG_US = 4_000_000;
/** A system that has not opened a port by then never does (common practice, no source). */
const OPEN_MS = 8000;

export function createOpening(site: OpeningSite): Opening {
  const { port, timers, queue, sink } = site;
  const decoder = createDecoder('device');
  const hearing = createHearing();
  const collector = createGreetingCollector();
  let phase: 'opening' | 'greeting' | 'greeted' | 'streaming' | 'stopped' | 'stopping' = 'opening';
  let alive = true;
  let whenEnded = (): void => {};
  const ended = new Promise<void>((resolve) => {
    whenEnded = resolve;
  });
  let greeting: Greeting | null = null;
  let arrivalUs = timers.nowUs();
  let lastSampleUs = arrivalUs;
  let lastByteUs = arrivalUs;
  let lastFrameUs = arrivalUs;
  let starting = false;
  let answering = true;
  /** A command was answered, or a hello begun: what is said gets there. */
  let hears = false;
  let frames = 0;
  let strayBytes = 0;
  let endHeartbeat = (): void => {};

  const isStarted = (): boolean => alive && (phase === 'streaming' || phase === 'stopped');

  const decoded = {
    frame(frame: Frame): void {
      if (frame.t !== 'K') onFrame(frame);
    },
    stray(reason: StrayReason, bytes: Uint8Array): void {
      strayBytes += bytes.length;
      hearing.stray(reason, bytes);
      sink.stray(reason, bytes, arrivalUs);
    },
  };

  function onFrame(frame: DeviceFrame): void {
    frames++;
    lastFrameUs = arrivalUs;
    hearing.forget();
    sink.frame(frame, arrivalUs);
    if (!alive) return;
    switch (frame.t) {
      case 'R':
        hears = true;
        queue.reply(frame);
        tellAnswers(true);
        return;
      case 'E':
        if (frame.code === 'boot' && phase === 'streaming') void regreet();
        return;
      case 'H':
      case 'C': {
        hears = true;
        const complete = collector.take(frame);
        if (complete !== null) onGreeting(complete);
        return;
      }
      case 'S':
        lastSampleUs = arrivalUs;
        return;
      case 'G':
        return;
      default:
        frame satisfies never;
    }
  }

  function onGreeting(complete: Greeting): void {
    if (phase === 'opening') return;
    if (phase === 'greeting') {
      greeting = complete;
      return;
    }
    // An unasked hello: the device started anew, or another program asked. Take it and stream again.
    const reset = complete.hello.bootId !== greeting?.hello.bootId;
    try {
      accept(complete);
    } catch (cause) {
      // Another device answers on the same line: it is not ours to stream from.
      void port.close();
      over(cause instanceof LinkFault ? cause.code : 'port-gone', String(cause));
      return;
    }
    if (reset) void start().catch(() => undefined);
  }

  function accept(complete: Greeting): void {
    sink.greeted(complete);
    greeting = complete;
  }

  function end(): void {
    alive = false;
    endHeartbeat();
    whenEnded();
  }

  function over(why: LinkError, detail: string): void {
    end();
    sink.gone(why, detail);
  }

  async function openPort(): Promise<void> {
    let cancel = (): void => {};
    let tooLate = false;
    const late = new Promise<never>((_, reject) => {
      cancel = timers.after(OPEN_MS, () => {
        tooLate = true;
        reject(new PortError('open-failed', 'the port did not open in time'));
      });
    });
    try {
      const opening = port.open(
        {
          bytes(chunk) {
            if (!alive) return;
            arrivalUs = timers.nowUs();
            lastByteUs = arrivalUs;
            decoder.push(chunk, decoded);
          },
          recovered(name) {
            if (!alive) return;
            // At a wrong speed every byte may be one: no line that was disturbed and goes on.
            if (phase === 'greeting' && frames === 0) hearing.disturbed();
            else sink.fault('read-recovered', name);
          },
          gone(name) {
            if (!alive) return;
            arrivalUs = timers.nowUs();
            decoder.end(decoded);
            over('port-gone', name);
          },
          arrived: () => sink.arrived(),
        },
        site.how,
      );
      await Promise.race([opening, late, ended]);
    } catch (cause) {
      const code = cause instanceof PortError ? cause.code : 'open-failed';
      throw new LinkFault(code, String(cause), code === 'open-failed' && !tooLate);
    } finally {
      cancel();
    }
    lastByteUs = timers.nowUs();
    if (!alive) throw new LinkFault('port-gone', 'closed while it was opened');
  }

  /** Says hello until the device answers with every line of its own. */
  async function greet(): Promise<void> {
    phase = 'greeting';
    sink.opened();
    const answered = (): boolean => greeting !== null || !alive;
    for (let n = 0; n < site.hellos && !answered(); n++) {
      queue.ask({ verb: 'hello' }, { attempts: 1, timeoutMs: HELLO_EVERY_MS }).catch(() => undefined);
      for (let k = 0; k < LOOKS_PER_HELLO && !answered(); k++)
        await pause(timers, HELLO_EVERY_MS / LOOKS_PER_HELLO);
    }
    if (!alive) throw new LinkFault('port-gone', 'gone while greeting');
    if (greeting === null) throw noHello();
    accept(greeting);
    phase = 'greeted';
  }

  function noHello(): LinkFault {
    // One frame is enough to know that the speed is right.
    if (hears) return new LinkFault('half-hello', 'the hello was not complete');
    if (frames > 0) return new LinkFault('deaf', 'frames come, hello is not answered');
    const { code, line } = hearing.heard;
    const readable = code === 'line-ends' || code === 'form' || code === 'check';
    return new LinkFault(code, line ?? 'no hello came', !readable);
  }

  async function start(): Promise<void> {
    if (starting) return;
    starting = true;
    const asked = site.rateHz();
    const ending = (): boolean => !alive || phase === 'stopping';
    try {
      const reply = await queue.ask({ verb: 'start', rateHz: asked });
      if (ending()) return;
      if (reply.result !== 'ok' && reply.result !== 'clamped')
        throw new LinkFault('command-failed', `start: ${reply.result}`);
      lastSampleUs = timers.nowUs();
      phase = 'streaming';
      sink.streaming(reply.value ?? asked);
    } catch (cause) {
      if (ending()) throw new LinkFault('port-gone', 'gone while starting');
      sink.fault('command-failed', String(cause));
      // The device greets but does not stream: the beat goes on and asks again. One that is only silent is not
      // known to have stopped.
      if (phase !== 'streaming' || cause instanceof LinkFault) {
        phase = 'stopped';
        sink.stopped();
      }
    } finally {
      starting = false;
    }
    // Another rate was asked for meanwhile.
    if (asked !== site.rateHz() && !ending()) await start();
  }

  async function regreet(): Promise<void> {
    const before = greeting;
    await queue.ask({ verb: 'hello' }, { attempts: 2 }).catch(() => undefined);
    // A reset device was started by its hello; one that only stopped keeps its boot id and is started here.
    if (alive && greeting?.hello.bootId === before?.hello.bootId) await start().catch(() => undefined);
  }

  function tellAnswers(ok: boolean): void {
    if (ok === answering) return;
    answering = ok;
    sink.answers(ok);
  }

  function look(idle: boolean): void {
    const { unansweredSinceUs } = queue;
    if (unansweredSinceUs !== null && timers.nowUs() - unansweredSinceUs >= UNANSWERED_US) tellAnswers(false);
    if (idle) lookForSamples();
  }

  function lookForSamples(): void {
    if (timers.nowUs() - lastByteUs > HUNG_US) {
      void port.close();
      over('port-gone', 'nothing came any more');
      return;
    }
    const { code, line } = hearing.heard;
    if (code !== 'no-hello' && timers.nowUs() - lastFrameUs > QUIET_US) sink.fault(code, line ?? '');
    if (phase === 'stopped' || timers.nowUs() - lastSampleUs > QUIET_US) void regreet();
  }

  return {
    get frames() {
      return frames;
    },
    get strayBytes() {
      return strayBytes;
    },
    get started() {
      return isStarted();
    },
    get heard() {
      return hearing.heard;
    },
    doubts: [],
    async open() {
      await openPort();
      await greet();
      await start();
      if (alive) endHeartbeat = startHeartbeat(timers, queue, look);
    },
    start,
    async stop() {
      endHeartbeat();
      phase = 'stopping';
      await queue.ask({ verb: 'stop' }, { attempts: 1, timeoutMs: 200 }).catch(() => undefined);
    },
    end,
  };
}
