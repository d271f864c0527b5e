/** Whether the goal of a drill was met: by what truly was, by what hands did, and by what was said to the program. */
import type { DrillCode } from '../rig/drills.ts';
import type { Stage } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Check } from './codes.ts';
import type { Course } from './course.ts';
import { truthAt } from './course.ts';
import type { Checked, DebriefInput } from './shapes.ts';

export interface Run {
  readonly course: Course;
  /** Seconds from the first reading: when it went wrong, when that could first be told, when the run ended. */
  readonly faultS: number | null;
  readonly signS: number | null;
  readonly lastS: number;
  readonly peakBar: number;
  readonly input: DebriefInput;
}

export interface Judged {
  readonly checks: readonly Checked[];
  /** When the first hand did what helps; null: none did. */
  readonly actionS: number | null;
}

/** Times that a drill leaves (common practice, no source): a valve within reach, and one that is being watched. */
const SHUT_S = 10;
const SHUT_RELIEF_S = 20;
/** A fill that came so near the working pressure is one, bar. */
const NEARLY_BAR = 0.15;
/** The leak takes about half a bar in this time, s; the packer must not have lost more than this, bar. */
const HOLD_ON_S = 20 * 60;
const MAY_LOSE_BAR = 0.3;
/** Less than this is an empty packer, bar (watch: the same). */
const EMPTY_BAR = 0.1;
/** The packer is filled on from the seat pressure once it stands over this, bar. */
const ON_BAR = 1;

/** What each check needs, in the terms of one run. */
class Looked {
  readonly fromS: number;
  private readonly signS: number;
  constructor(private readonly told: Run) {
    this.fromS = told.faultS ?? 0;
    this.signS = told.signS ?? this.fromS;
  }

  private limit(which: 'ratedBar' | 'ceilingBar' | 'workingBar'): number | null {
    return this.told.input.limits?.[which] ?? null;
  }

  /** Seconds from the first reading. */
  private s(tUs: number): number {
    return (tUs - this.told.input.firstUs) / 1e6;
  }

  private event<E extends WatchEvent>(is: (e: WatchEvent) => e is E): E | undefined {
    return this.told.input.events.find((e): e is E => this.s(e.tUs) >= this.fromS && is(e));
  }

  /** The first time that the valve was shut by hand from then on; then already: that time itself. */
  shutS(): number | null {
    const { hands } = this.told.course;
    const before = hands.findLast((h) => h.name === 'valve' && h.s < this.fromS);
    if (before !== undefined && before.value === 0) return this.fromS;
    return hands.find((h) => h.name === 'valve' && h.s >= this.fromS && h.value === 0)?.s ?? null;
  }

  private openedAfter(s: number): number | null {
    return this.told.course.hands.find((h) => h.name === 'valve' && h.s > s && (h.value ?? 0) > 0)?.s ?? null;
  }

  underRated(): Checked {
    return this.under('under-rated', this.limit('ratedBar'));
  }

  underCeiling(): Checked {
    return this.under('under-ceiling', this.limit('ceilingBar'));
  }

  private under(check: Check, limit: number | null): Checked {
    const { peakBar } = this.told;
    return { check, ok: limit !== null && peakBar <= limit, value: peakBar, limit };
  }

  shutInTime(limit: number): Checked {
    const at = this.shutS();
    const value = at === null ? null : Math.max(0, at - this.signS);
    return { check: 'shut-in-time', ok: value !== null && value <= limit, value, limit };
  }

  /** At all: how soon is told by the pressure. */
  shut(): Checked {
    const at = this.shutS();
    const value = at === null ? null : Math.max(0, at - this.signS);
    return { check: 'shut-in-time', ok: at !== null, value, limit: null };
  }

  staysShut(): Checked {
    const at = this.shutS();
    return {
      check: 'stays-shut',
      ok: at !== null && this.openedAfter(at) === null,
      value: null,
      limit: null,
    };
  }

  vented(): Checked {
    const last = this.told.course.truth.at(-1);
    const hand = this.told.course.hands.find((h) => h.name === 'vent' && h.s >= this.fromS && h.value === 1);
    const value = last === undefined ? null : Math.max(last.lineBar, last.packerBar);
    return {
      check: 'vented',
      ok: hand !== undefined && value !== null && value <= EMPTY_BAR,
      value,
      limit: EMPTY_BAR,
    };
  }

  turnedDownS(): number | null {
    const limit = this.limit('ceilingBar');
    const { hands } = this.told.course;
    const down = (value: number | null): boolean => limit !== null && value !== null && value <= limit;
    return hands.find((h) => h.name === 'regulator' && h.s >= this.fromS && down(h.value))?.s ?? null;
  }

  turnedDown(): Checked {
    const at = this.turnedDownS();
    const opened = this.openedAfter(this.fromS);
    const ok = at !== null && (opened === null || at < opened);
    const value = at === null ? null : at - this.fromS;
    return { check: 'turned-down', ok, value, limit: null };
  }

  gaugeS(): number | null {
    const said = this.told.input.commands.find((c) => c.command.c === 'gauge' && this.s(c.tUs) >= this.fromS);
    return said === undefined ? null : this.s(said.tUs);
  }

  gaugeCompared(): Checked {
    const at = this.gaugeS();
    const on = this.told.course.truth.find((t) => t.s >= this.fromS && t.packerBar > ON_BAR);
    const ok = at !== null && (on === undefined || at < on.s);
    return { check: 'gauge-compared', ok, value: at === null ? null : at - this.fromS, limit: null };
  }

  filled(): Checked {
    const working = this.limit('workingBar');
    const limit = working === null ? null : working - NEARLY_BAR;
    const { peakBar } = this.told;
    return { check: 'filled', ok: limit !== null && peakBar >= limit, value: peakBar, limit };
  }

  heldLong(): Checked {
    const value = Math.min(HOLD_ON_S, this.told.lastS - this.fromS);
    return { check: 'held-long', ok: value >= HOLD_ON_S, value, limit: HOLD_ON_S };
  }

  heldUp(): Checked {
    const working = this.limit('workingBar');
    const limit = working === null ? null : working - MAY_LOSE_BAR;
    const until = this.fromS + HOLD_ON_S;
    const value = this.told.course.truth
      .filter((t) => t.s >= this.fromS && t.s <= until)
      .reduce((least, t) => Math.min(least, t.packerBar), Infinity);
    const known = Number.isFinite(value) ? value : null;
    return { check: 'held-up', ok: limit !== null && known !== null && known >= limit, value: known, limit };
  }

  topUpS(): number | null {
    return this.openedAfter(this.fromS);
  }

  notHeld(): Checked {
    const held = this.event((e): e is WatchEvent => e.e === 'stage' && e.stage === 'hold');
    return { check: 'not-held', ok: held === undefined, value: null, limit: null };
  }

  emptyOpened(): Checked {
    const { course, lastS } = this.told;
    const off = course.hands.find((h) => h.name === 'couple' && h.s >= this.fromS && h.value === 0);
    const value = truthAt(course, off?.s ?? lastS)?.packerBar ?? null;
    return { check: 'empty-opened', ok: value !== null && value <= EMPTY_BAR, value, limit: EMPTY_BAR };
  }

  testedS(): number | null {
    const stayed = this.event((e): e is WatchEvent => e.e === 'rebound' && e.what === 'stayed');
    return stayed === undefined ? null : this.s(stayed.tUs);
  }

  testedEmpty(): Checked {
    return { check: 'tested-empty', ok: this.testedS() !== null, value: null, limit: null };
  }

  /** When the let-down began: the stage that somebody named, or the vent at a full packer. */
  private letDownS(): number | null {
    const { events } = this.told.input;
    const stage: Stage = 'let-down';
    const said = events.find((e) => e.e === 'stage' && e.stage === stage);
    const { hands } = this.told.course;
    const vent = hands.find(
      (h) => h.name === 'vent' && h.value === 1 && (truthAt(this.told.course, h.s)?.packerBar ?? 0) > 0.5,
    );
    const all = [said === undefined ? null : this.s(said.tUs), vent?.s ?? null].filter((s) => s !== null);
    return all.length === 0 ? null : Math.min(...all);
  }

  metS(): number | null {
    const met = this.told.input.events.findLast((e) => e.e === 'cure-met');
    return met === undefined ? null : this.s(met.tUs);
  }

  cureWaited(): Checked {
    const [down, met] = [this.letDownS(), this.metS()];
    const value = down === null || met === null ? null : down - met;
    return { check: 'cure-waited', ok: value !== null && value >= 0, value, limit: 0 };
  }
}

export function judge(drill: DrillCode, told: Run): Judged {
  const look = new Looked(told);
  switch (drill) {
    case 'drill-stuck-open':
      return {
        checks: [look.underRated(), look.shutInTime(SHUT_S), look.staysShut()],
        actionS: look.shutS(),
      };
    case 'drill-creep':
      return {
        checks: [look.filled(), look.underCeiling(), look.shut()],
        actionS: look.shutS(),
      };
    case 'drill-unplug':
      return { checks: [look.shutInTime(SHUT_S), look.underCeiling()], actionS: look.shutS() };
    case 'drill-blown-hose':
      return { checks: [look.shutInTime(SHUT_S), look.staysShut()], actionS: look.shutS() };
    case 'drill-burst':
      return { checks: [look.shutInTime(SHUT_S), look.staysShut(), look.vented()], actionS: look.shutS() };
    case 'drill-relief':
      return {
        checks: [look.shutInTime(SHUT_RELIEF_S), look.staysShut(), look.notHeld(), look.vented()],
        actionS: look.shutS(),
      };
    case 'drill-leak':
      return { checks: [look.heldLong(), look.heldUp(), look.underCeiling()], actionS: look.topUpS() };
    case 'drill-kink':
      return { checks: [look.testedEmpty(), look.emptyOpened()], actionS: look.testedS() };
    case 'drill-moved':
      return {
        checks: [look.turnedDown(), look.filled(), look.underCeiling()],
        actionS: look.turnedDownS(),
      };
    case 'drill-differ':
      return {
        checks: [look.gaugeCompared(), look.filled(), look.underCeiling()],
        actionS: look.gaugeS(),
      };
    case 'drill-open-probe':
    case 'drill-slow-batch':
      return { checks: [look.cureWaited(), look.emptyOpened()], actionS: null };
    default:
      return drill satisfies never;
  }
}
