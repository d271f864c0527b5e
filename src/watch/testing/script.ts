import { noise } from '../../estimate/testing/random.ts';
import type { Setup } from '../../job/setup.ts';
import { setupOf } from '../../job/testing/givens.ts';
import type { Reading, TemperatureReading } from '../../sensing/reading.ts';
import { readingOf } from '../../sensing/testing/readings.ts';
import type { AlarmCode, AlarmState } from '../codes.ts';
import type { WatchEvent } from '../events.ts';
import type { Command, Notice } from '../inputs.ts';
import type { WatchOptions, WatchState } from '../step.ts';
import { createWatch, step, viewOf } from '../step.ts';

/** Looks at a run on its way. */
export type Look = (w: WatchState, tUs: number) => void;
const LOOK_EACH = 500;

export interface Flow {
  readonly hz?: number;
  readonly sd?: number;
  readonly temps?: (tS: number) => readonly TemperatureReading[];
  readonly more?: Partial<Reading>;
}

/** Plays a story into a watch: time goes on, readings come, commands and notices are given. Keeps the events. */
export class Script {
  readonly w: WatchState;
  readonly events: WatchEvent[] = [];
  tS = 0;
  private seq = 0;
  private readonly random: () => number;
  private readonly emit = (event: WatchEvent) => {
    this.events.push(event);
  };

  private readonly look: Look | undefined;

  /** @param options `look` is called at each five hundredth reading */
  constructor(options: WatchOptions & { setup?: Setup | null; seed?: number; look?: Look | undefined } = {}) {
    this.look = options.look;
    this.w = createWatch(options);
    this.random = noise(options.seed ?? 7);
    const setup = options.setup === undefined ? setupOf() : options.setup;
    if (setup !== null) this.setup(setup);
  }

  private get tUs(): number {
    return Math.round(this.tS * 1e6);
  }

  setup(setup: Setup): this {
    step(this.w, { i: 'setup', tUs: this.tUs, setup }, this.emit);
    return this;
  }

  say(command: Command): this {
    step(this.w, { i: 'command', tUs: this.tUs, command }, this.emit);
    return this;
  }

  /** Presses 'acknowledge' at one alarm as it is shown now, or at all. */
  acknowledge(alarm?: AlarmCode): this {
    for (const shown of viewOf(this.w, this.tUs).alarms)
      if (alarm === undefined || shown.alarm === alarm)
        this.say({ c: 'acknowledge', alarm: shown.alarm, occurrence: shown.occurrence });
    return this;
  }

  notice(notice: Notice): this {
    step(this.w, { i: 'notice', tUs: this.tUs, notice }, this.emit);
    return this;
  }

  give(input: Parameters<typeof step>[1]): this {
    step(this.w, input, this.emit);
    return this;
  }

  /** Readings of `bar(seconds since this call)` for so many seconds, with ticks at 10 Hz between them. */
  flow(seconds: number, bar: number | null | ((s: number) => number | null), flow: Flow = {}): this {
    const hz = flow.hz ?? 20;
    const n = Math.round(seconds * hz);
    const from = this.tS;
    for (let k = 1; k <= n; k++) {
      const tS = from + k / hz;
      this.ticks(tS);
      const clean = typeof bar === 'function' ? bar(k / hz) : bar;
      const value = clean === null ? null : clean + (flow.sd ?? 0.001) * this.random();
      this.seq++;
      const { seq } = this;
      const reading = readingOf(tS, value, { seq, temps: flow.temps?.(tS) ?? [], ...flow.more });
      step(this.w, { i: 'reading', tUs: reading.tUs, reading }, this.emit);
      this.tS = tS;
      if (this.seq % LOOK_EACH === 0) this.look?.(this.w, reading.tUs);
    }
    return this;
  }

  /** Nothing comes but the clock. */
  silence(seconds: number): this {
    const to = this.tS + seconds;
    this.ticks(to);
    this.tS = to;
    return this;
  }

  private ticks(toS: number): void {
    const first = Math.floor(this.tS * 10 + 1e-6) + 1;
    for (let k = first; k <= Math.floor(toS * 10 + 1e-6); k++)
      step(this.w, { i: 'tick', tUs: k * 100_000 }, this.emit);
  }

  /** States that an alarm went through, in order. */
  states(alarm: AlarmCode): AlarmState[] {
    const out: AlarmState[] = [];
    for (const e of this.events) if (e.e === 'alarm' && e.alarm === alarm) out.push(e.to);
    return out;
  }

  /** Seconds at which an alarm went into a state for the first time; NaN: never. */
  at(alarm: AlarmCode, to: AlarmState): number {
    const e = this.events.find((one) => one.e === 'alarm' && one.alarm === alarm && one.to === to);
    return e === undefined ? Number.NaN : e.tUs / 1e6;
  }

  of<K extends WatchEvent['e']>(e: K): Extract<WatchEvent, { e: K }>[] {
    return this.events.filter((one): one is Extract<WatchEvent, { e: K }> => one.e === e);
  }

  /** Alarms that were annunciated (not only suppressed), each once, in order. */
  heard(): AlarmCode[] {
    const out: AlarmCode[] = [];
    for (const e of this.events)
      if (e.e === 'alarm' && e.to === 'unacknowledged' && !out.includes(e.alarm)) out.push(e.alarm);
    return out;
  }
}
