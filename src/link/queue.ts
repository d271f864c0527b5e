import type { CommandFrame, HostVerb, ReplyFrame } from './frames.ts';
import type { Timers } from './timers.ts';

export class CommandError extends Error {
  override readonly name = 'CommandError';
  constructor(
    readonly reason: 'no-answer' | 'write-failed' | 'dropped',
    message: string,
  ) {
    super(message);
  }
}

export interface AskOptions {
  /** How long one attempt may wait for its reply, ms. Default 400. */
  readonly timeoutMs?: number;
  /** How often the same number is sent before the command is given up. Default 3. */
  readonly attempts?: number;
}

export interface CommandQueue {
  /** Sends a command in its turn. Always settles: with the device's reply or a CommandError. */
  ask(verb: HostVerb, options?: AskOptions): Promise<ReplyFrame>;
  /** Hands over a reply from the device. False: nobody waits for that number (a late or repeated answer). */
  reply(frame: ReplyFrame): boolean;
  /** Fails everything that waits; the queue stays usable. */
  drop(why: string): void;
  readonly waiting: number;
  /** Since when commands go out and no reply comes, on the timers' clock; null: the last one was answered. */
  readonly unansweredSinceUs: number | null;
}

interface Waiting {
  readonly frame: CommandFrame;
  readonly options: AskOptions;
  sent: number;
  resolve(frame: ReplyFrame): void;
  reject(error: CommandError): void;
}

/**
 * One command at a time, each with its own number. A lost answer is asked for again under the same number (the
 * device answers a repeated number again without carrying it out twice). A command that gets no answer fails
 * and the next one goes: nothing can wedge the queue, not even a write that never settles.
 */
export function createQueue(
  send: (frame: CommandFrame) => Promise<void>,
  timers: Timers,
  firstNumber: number,
): CommandQueue {
  const line: Waiting[] = [];
  let active: Waiting | null = null;
  let cancel: () => void = () => {};
  let number = firstNumber & 0xffff;
  let unansweredSinceUs: number | null = null;

  function finish(): void {
    cancel();
    cancel = () => {};
    active = null;
    next();
  }

  function attempt(job: Waiting): void {
    job.sent++;
    unansweredSinceUs ??= timers.nowUs();
    cancel = timers.after(job.options.timeoutMs ?? 400, () => {
      if (active !== job) return;
      if (job.sent < (job.options.attempts ?? 3)) {
        attempt(job);
        return;
      }
      job.reject(new CommandError('no-answer', `${job.frame.command.verb} was not answered`));
      finish();
    });
    send(job.frame).catch((error: unknown) => {
      if (active !== job) return;
      job.reject(new CommandError('write-failed', String(error)));
      finish();
    });
  }

  function next(): void {
    if (active !== null) return;
    const job = line.shift();
    if (job === undefined) return;
    active = job;
    attempt(job);
  }

  return {
    ask(verb, options = {}) {
      const frame: CommandFrame = { t: 'K', number, command: verb };
      number = (number + 1) & 0xffff;
      return new Promise<ReplyFrame>((resolve, reject) => {
        line.push({ frame, options, sent: 0, resolve, reject });
        next();
      });
    },
    reply(frame) {
      // A late answer is one, too: the device hears.
      unansweredSinceUs = null;
      const job = active;
      if (job === null || job.frame.number !== frame.command) return false;
      job.resolve(frame);
      finish();
      return true;
    },
    drop(why) {
      const all = active === null ? line.splice(0) : [active, ...line.splice(0)];
      cancel();
      cancel = () => {};
      active = null;
      unansweredSinceUs = null;
      for (const job of all) job.reject(new CommandError('dropped', why));
      next();
    },
    get unansweredSinceUs() {
      return unansweredSinceUs;
    },
    get waiting() {
      return line.length + (active === null ? 0 : 1);
    },
  };
}
