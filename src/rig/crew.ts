/**
 * The simulated crew: a hand on the valve with its reaction time and speed, an eye on a dial gauge, and a plan.
 * Everything that varies is drawn from the seed; with the same seed and site it does the same.
 */
import { createRandom } from './random.ts';
import type { Site } from './site.ts';

export interface CrewOptions {
  readonly seed: number;
  /**
   * regulated: the valve is opened and left open until the line stands at the regulator's pressure.
   * steps: the supply stands high and the hand doses by opening and shutting.
   * heedless: the valve is opened and nobody looks again.
   */
  readonly style?: 'regulated' | 'steps' | 'heedless';
  /** Start of the fill, s. */
  readonly startS?: number;
  readonly workingBar?: number;
  /** Pause at the seat pressure, bar; null: none. */
  readonly seatBar?: number | null;
  readonly pauseS?: number;
  /** Reaction from seeing to moving, s: drawn anew each time from this range. */
  readonly reactionS?: readonly [number, number];
  /** Opening of the valve in a step, 0..1: drawn anew each time. */
  readonly openings?: readonly [number, number];
  /** Pressures at which the steps pause, shares of working, beside seat and working itself. */
  readonly stops?: readonly number[];
  /** Rest after each step, s. */
  readonly restS?: readonly [number, number];
  /**
   * How far the crew trusts what it has seen at the last stop: the needle falls back by that much when the flow
   * ends, so it may be let stand so much higher first. 0..1.
   */
  readonly trust?: number;
  /** How much of the expected overrun the hand allows for: 0 shuts at the mark, 1 in time. */
  readonly foresight?: number;
  /** Error of the dial gauge that the crew reads, bar; it sits at the hose's near end. */
  readonly gaugeErrorBar?: number;
  /** Content when the rest is within this of working, bar. */
  readonly toleranceBar?: number;
  /** Shut the valve when full (a closed line), or leave the regulator on. */
  readonly closes?: boolean;
  /** Fill again when the gauge falls under this while holding, bar; null: never. */
  readonly topUpBelowBar?: number | null;
  /** Length of the hold, s; null: for ever. */
  readonly holdS?: number | null;
  /** The vent stays open until the gauge has been near zero so long, s; then it is shut for the rebound test. */
  readonly ventS?: number;
  readonly reboundS?: number;
}

export type CrewPhase =
  | 'waiting'
  | 'filling'
  | 'resting'
  | 'pause'
  | 'holding'
  | 'venting'
  | 'rebound'
  | 'done';

export interface CrewAct {
  readonly atS: number;
  readonly what: 'open' | 'shut' | 'vent' | 'unvent' | 'seated' | 'full' | 'top-up' | 'let-down' | 'done';
}

export interface Crew {
  readonly phase: CrewPhase;
  readonly acts: readonly CrewAct[];
  /** Looks and acts. Call it before each step of the site, at intervals of 0.1 s or less. */
  step(site: Site, nowS: number): void;
}

/** Under this share of its loudest the air is no longer heard to go. */
const HEARD_SHARE = 0.05;

export function createCrew(options: CrewOptions): Crew {
  const o = {
    style: 'regulated' as const,
    startS: 5,
    workingBar: 1.5,
    seatBar: 0.4,
    pauseS: 18,
    reactionS: [0.25, 0.7] as const,
    openings: [0.25, 0.7] as const,
    stops: [0.6, 0.85],
    restS: [1.5, 6] as const,
    trust: 0.7,
    foresight: 0.6,
    gaugeErrorBar: 0,
    toleranceBar: 0.04,
    closes: true,
    topUpBelowBar: null,
    holdS: null,
    ventS: 5,
    reboundS: 25,
    ...options,
  };
  const random = createRandom(o.seed).fork('crew');
  const acts: CrewAct[] = [];
  let phase: CrewPhase = 'waiting';
  /** A movement decided on, which the hand carries out at its time. */
  let planned: { atS: number; act(): void } | null = null;
  let seated = o.seatBar === null;
  let untilS = 0;
  let heldFromS = 0;
  let lastS = Number.NaN;
  let lastBar = 0;
  let rate = 0;
  let quietSinceS = 0;
  let aim = 0;
  /** Opening now, gauge when it was shut, and fall-back seen per opening at the last stop. */
  let opening = 0;
  let shutBar = 0;
  let fallBack = 0;
  let ventS = o.ventS;
  /** Shortest opening: longer and longer while the rests show that little was gained. */
  let leastS = 0;
  let openedS = 0;
  let restBar = 0;
  /** Most air that went into the packer, kg/s. */
  let loudest = 0;
  const marks = [...o.stops.map((s) => s * o.workingBar), o.workingBar];

  const note = (atS: number, what: CrewAct['what']) => acts.push({ atS, what });
  const plan = (nowS: number, act: () => void) => {
    planned = { atS: nowS + random.range(o.reactionS[0], o.reactionS[1]), act };
  };

  function target(bar: number): number {
    if (!seated && o.seatBar !== null) return o.seatBar;
    if (o.style !== 'steps') return o.workingBar;
    return marks.find((m) => m > bar + o.toleranceBar) ?? o.workingBar;
  }

  function open(site: Site, nowS: number): void {
    aim = target(lastBar);
    // Near the mark a hand opens less.
    const near = aim - lastBar < 0.2 ? 0.6 : 1;
    opening = o.style === 'steps' || !seated ? near * random.range(o.openings[0], o.openings[1]) : 1;
    site.valve(opening);
    note(nowS, 'open');
    phase = 'filling';
    quietSinceS = nowS;
    openedS = nowS;
    restBar = lastBar;
  }

  function shut(site: Site, nowS: number): void {
    site.valve(0);
    note(nowS, 'shut');
    shutBar = lastBar;
    phase = 'resting';
    untilS = nowS + site.options.valve.travelS + random.range(o.restS[0], o.restS[1]);
  }

  function rested(site: Site, nowS: number, bar: number): void {
    fallBack = Math.max(0, shutBar - bar) / opening;
    const gained = bar - restBar;
    if (gained < 0.25 * (aim - bar)) leastS = Math.min(12, Math.max(1, 1.5 * leastS));
    else leastS = 0;
    if (!seated && o.seatBar !== null && bar > o.seatBar - 0.1) {
      seated = true;
      note(nowS, 'seated');
      phase = 'pause';
      untilS = nowS + o.pauseS;
      return;
    }
    // With a regulator, full is what stays when the valve is shut; a thin hose shows more while air flows.
    const full = o.style === 'steps' ? o.workingBar : Math.min(o.workingBar, shutBar);
    if (bar >= full - o.toleranceBar) {
      note(nowS, 'full');
      phase = 'holding';
      heldFromS = nowS;
      return;
    }
    plan(nowS, () => open(site, site.truth.timeS));
  }

  function filling(site: Site, nowS: number, bar: number): void {
    if (o.style === 'heedless' && seated) return;
    const regulated = o.style === 'regulated' && seated;
    loudest = Math.max(loudest, site.truth.flowKgS);
    if (regulated) {
      // Stands still: the regulator has taken over.
      if (Math.abs(rate) > 0.002 || bar < 0.5 * o.workingBar) quietSinceS = nowS;
      if (nowS - quietSinceS > 4) {
        if (!o.closes) {
          // Before a hose the needle stands at the regulator's pressure while the packer is still limp: the crew hears the air go.
          if (site.truth.flowKgS > HEARD_SHARE * loudest) return;
          note(nowS, 'full');
          phase = 'holding';
          heldFromS = nowS;
        } else plan(nowS, () => shut(site, site.truth.timeS));
      }
      return;
    }
    const meanReaction = (o.reactionS[0] + o.reactionS[1]) / 2;
    const lead = o.foresight * Math.max(0, rate) * (meanReaction + site.options.valve.travelS / 2);
    // Nearer the mark it trusts the needle's fall-back less: never by more than the gap that is left.
    const allowed = Math.min(o.trust * fallBack * opening, 0.7 * (aim - restBar));
    if (nowS - openedS < leastS && bar < 2 * o.workingBar) return;
    if (bar + lead >= aim + allowed) plan(nowS, () => shut(site, site.truth.timeS));
  }

  function holding(site: Site, nowS: number, bar: number): void {
    if (o.holdS !== null && nowS - heldFromS >= o.holdS) {
      note(nowS, 'let-down');
      site.valve(0);
      site.vent(1);
      note(nowS, 'vent');
      phase = 'venting';
      quietSinceS = nowS;
    } else if (o.topUpBelowBar !== null && bar < o.topUpBelowBar && site.truth.valveOpen === 0) {
      note(nowS, 'top-up');
      plan(nowS, () => open(site, site.truth.timeS));
    }
  }

  function step(site: Site, nowS: number): void {
    const bar = site.truth.hoseBar + o.gaugeErrorBar;
    const dt = nowS - lastS;
    // The eye follows the needle with a lag of about half a second.
    if (dt > 0) rate += ((bar - lastBar) / dt - rate) * Math.min(1, dt / 0.5);
    lastS = nowS;
    lastBar = bar;
    if (planned !== null) {
      if (nowS < planned.atS) return;
      const { act } = planned;
      planned = null;
      act();
      return;
    }
    switch (phase) {
      case 'waiting':
        if (nowS >= o.startS) open(site, nowS);
        return;
      case 'filling':
        filling(site, nowS, bar);
        return;
      case 'resting':
        if (nowS >= untilS) rested(site, nowS, bar);
        return;
      case 'pause':
        if (nowS >= untilS) open(site, nowS);
        return;
      case 'holding':
        holding(site, nowS, bar);
        return;
      case 'venting':
        if (bar > 0.02) quietSinceS = nowS;
        if (nowS - quietSinceS >= ventS) {
          site.vent(0);
          note(nowS, 'unvent');
          phase = 'rebound';
          untilS = nowS + o.reboundS;
        }
        return;
      case 'rebound':
        // Rises again: not empty yet. It learns to wait longer.
        if (bar > 0.05) {
          ventS *= 1.7;
          site.vent(1);
          note(nowS, 'vent');
          phase = 'venting';
          quietSinceS = nowS;
        } else if (nowS >= untilS) {
          note(nowS, 'done');
          phase = 'done';
        }
        return;
      case 'done':
        return;
      default:
        phase satisfies never;
    }
  }

  return {
    get phase() {
      return phase;
    },
    acts,
    step,
  };
}
