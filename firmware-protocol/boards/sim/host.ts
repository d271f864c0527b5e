import { createDecoder } from '../../../src/link/decode.ts';
import { encodeFrame } from '../../../src/link/encode.ts';
import type {
  EventFrame,
  Frame,
  GuardFrame,
  HelloFrame,
  HostVerb,
  ReplyFrame,
  SampleFrame,
} from '../../../src/link/frames.ts';
import type { Machine } from './machine.ts';

/** Longest wait for an answer: a limit is stored before it is confirmed, at 3.4 ms a byte. */
const ANSWER_US = 120_000;

/** The other end of a board's line, on the board's time: what it said, as frames. */
export interface Host {
  readonly frames: Frame[];
  readonly strays: { readonly reason: string; readonly bytes: Uint8Array }[];
  /** Lets time pass and takes what comes. */
  run(us: number): void;
  /** Sends a command and runs until its answer. @throws where none comes */
  ask(verb: HostVerb, number?: number): ReplyFrame;
  readonly samples: SampleFrame[];
  readonly events: EventFrame[];
  readonly guard: GuardFrame | undefined;
  readonly hello: HelloFrame | undefined;
  forget(): void;
}

export function createHost(machine: Machine): Host {
  const frames: Frame[] = [];
  const strays: { reason: string; bytes: Uint8Array }[] = [];
  const decoder = createDecoder('device');
  let next = 1000;
  const sink = {
    frame: (frame: Frame) => void frames.push(frame),
    stray: (reason: string, bytes: Uint8Array) => void strays.push({ reason, bytes }),
  };
  function run(us: number): void {
    machine.run(us);
    decoder.push(machine.taken(), sink);
  }
  return {
    frames,
    strays,
    run,
    ask(verb, number = next++) {
      const from = frames.length;
      machine.say(encodeFrame({ t: 'K', number, command: verb }));
      for (let waited = 0; waited < ANSWER_US; waited += 2000) {
        run(2000);
        const reply = frames.slice(from).find((f): f is ReplyFrame => f.t === 'R' && f.command === number);
        if (reply !== undefined) return reply;
      }
      throw new Error(`${verb.verb} was not answered; last: ${JSON.stringify(frames.slice(-3))}`);
    },
    get samples() {
      return frames.filter((f): f is SampleFrame => f.t === 'S');
    },
    get events() {
      return frames.filter((f): f is EventFrame => f.t === 'E');
    },
    get guard() {
      return frames.findLast((f): f is GuardFrame => f.t === 'G');
    },
    get hello() {
      return frames.findLast((f): f is HelloFrame => f.t === 'H');
    },
    forget() {
      frames.length = 0;
      strays.length = 0;
    },
  };
}
