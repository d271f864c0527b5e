/**
 * The fills of the campaign, drawn from seeds: packers, hoses, hands, sensors, faults. What is drawn here is the
 * simulated world's own knowledge; the guard gets the readings, the limits and the tap, and nothing else.
 */
import type { Tap } from '../../src/job/setup.ts';
import type { SiteOptions } from '../../src/rig/options.ts';
import { createRandom, type Random } from '../../src/rig/random.ts';

export const KINDS = ['normal', 'hand', 'high', 'creep', 'stuck'] as const;
export type Kind = (typeof KINDS)[number];

export interface Sensor {
  readonly rateHz: number;
  readonly bits: number;
  readonly spanBar: number;
  /** Standard deviation of the noise, bar; its correlation time, s (0: white). */
  readonly noiseBar: number;
  readonly noiseTauS: number;
  readonly lagS: number;
  readonly offsetBar: number;
  readonly gain: number;
  /** Mean seconds between spikes; 0: none. */
  readonly spikeEveryS: number;
}

export interface Hand {
  /** From the reading's passing the target to the first move, s. */
  readonly noticeS: number;
  /** Intermediate targets, bar, ascending; the last is the working pressure. */
  readonly targets: readonly number[];
  /** Opening of the valve for each target, 0..1. */
  readonly openings: readonly number[];
  /** Pause after each stop, s. */
  readonly pauses: readonly number[];
  /** Forgets the last stop. */
  readonly forgets: boolean;
}

export interface Scenario {
  readonly kind: Kind;
  readonly seed: number;
  readonly tap: Tap;
  readonly site: SiteOptions;
  readonly ratedBar: number;
  readonly uBar: number;
  readonly ceilingBar: number;
  readonly workingBar: number;
  readonly seatBar: number | null;
  readonly sensor: Sensor;
  readonly hand: Hand;
  /** The regulator sticks open when the packer passes this, bar; null: never. */
  readonly stickAtBar: number | null;
  /** Nominal slope of the fill, bar/s. */
  readonly nominal: number;
  /** Where the regulator stands at no flow, bar. */
  readonly setBar: number;
  readonly creepBarPerS: number;
  /** It begins to creep so long after the packer has passed this, bar: a worn seat leaks on when the flow dies away. */
  readonly creepAtBar: number | null;
  readonly creepDelayS: number;
}

/** What of the world is drawn within which bounds. */
interface World {
  readonly pipesMm: readonly number[];
  readonly lengthM: Range;
  /** Nominal slope, bar/s: by hand, and with a regulator or a supply that sticks open. */
  readonly handNominal: Range;
  readonly nominal: Range;
  /** From the reading's passing the target to a shut valve, s: quick and slow hands, and the share of slow ones. */
  readonly quickHand: Range;
  readonly slowHand: Range;
  readonly slowShare: number;
  /** Every other fill has this sensor: rate, Hz, and noise, bar; null: none has. */
  readonly plainSensor: { readonly rateHz: number; readonly noiseBar: Range } | null;
}
type Range = readonly [number, number];

export const WORLDS = {
  common: {
    pipesMm: [100, 125, 150, 200, 250, 300, 400],
    lengthM: [0.4, 1.2],
    handNominal: [0.025, 0.2],
    nominal: [0.03, 0.25],
    quickHand: [0.3, 0.6],
    slowHand: [0.55, 0.8],
    slowShare: 0.3,
    plainSensor: null,
  },
  /** Small packers on valves that are opened wide: at the working pressure 10-600 mbar/s are left of the nominal slope. */
  quick: {
    pipesMm: [70, 80, 100, 125, 150, 200],
    lengthM: [0.3, 0.8],
    handNominal: [0.02, 1],
    nominal: [0.02, 1],
    quickHand: [0.1, 0.6],
    slowHand: [0.1, 0.6],
    slowShare: 0,
    plainSensor: { rateHz: 20, noiseBar: [0.003, 0.006] },
  },
} as const satisfies Record<string, World>;
export type WorldName = keyof typeof WORLDS;

export interface Variation {
  readonly world?: WorldName;
  readonly tap?: Tap;
  /** Reading's error at rated as a multiple of U; null: drawn inside U. */
  readonly biasU?: number;
}

const RATES = [10, 20, 20, 50, 50, 100, 200] as const;
const BITS = [10, 12, 12, 14, 16, 24] as const;

/** Strata run through with the seed, so that every slice of seeds holds each of them. */
function stratum<T>(items: readonly T[], seed: number, stride: number): T {
  return items[Math.floor(seed / stride) % items.length]!;
}

export function drawScenario(kind: Kind, seed: number, variation: Variation = {}): Scenario {
  const world: World = WORLDS[variation.world ?? 'common'];
  const base = createRandom(seed * 8 + KINDS.indexOf(kind));
  const r = base.fork('site');
  const tap = variation.tap ?? stratum(['packer', 'hose'] as const, seed, 1);
  const pipeMm = r.pick(world.pipesMm);
  const lengthM = r.range(...world.lengthM);
  const litres = Math.PI * (pipeMm / 2000) ** 2 * lengthM * 1000;
  const ratedBar = Math.round(20 * Math.min(2.6, r.range(0.9, 1.4) * (1.9 - pipeMm / 400))) / 20;
  const uBar = r.logRange(0.007, 0.022);
  const ceilingBar = ratedBar - uBar;
  const workingBar = Math.min(ratedBar * r.range(0.71, 0.87), ceilingBar - 0.04);
  const open = kind === 'hand' || (kind === 'stuck' && stratum([true, false], seed, 2));
  const supply = r.range(5, 8);
  const nominal = r.logRange(...(kind === 'hand' ? world.handNominal : world.nominal));

  const setBar = open
    ? supply - 0.2
    : kind === 'high'
      ? ratedBar + r.logRange(0.03, 1)
      : Math.min(workingBar + Math.max(-0.04, Math.min(0.03, 0.015 * r.normal())), ceilingBar - 0.01);
  const hoseM = r.range(5, 40);
  const p1 = 1e5 * (1 + setBar);
  // A crew does not hang a big packer on a hose that would take a quarter of an hour.
  let hoseBore = r.pick([4, 6, 6, 8, 9]);
  while (hoseBore < 13 && hoseConductance(hoseBore, hoseM) * p1 < 0.018 * litres * 1e-3) hoseBore += 2;
  // Where the sensor sits before the hose, its drop at full flow is up to some tenths of a bar, not the whole supply.
  if (tap === 'hose') {
    const drop = r.logRange(0.008, 0.3);
    const p = 1 + workingBar;
    const least = ((nominal * litres * 1e-3) / (p * 1e5)) * Math.sqrt((p * 0.85) / (2 * drop));
    while (hoseBore < 25 && hoseConductance(hoseBore, hoseM) < least) hoseBore += 1;
  }
  const hoseC = hoseConductance(hoseBore, hoseM);
  const wanted = (nominal * litres * 1e-3) / p1;
  const valveC = wanted < 0.9 * hoseC ? 1 / Math.sqrt(1 / wanted ** 2 - 1 / hoseC ** 2) : 2.5 * hoseC;
  const total = Math.min(wanted, 0.93 * hoseC);
  const creepBarPerS = kind === 'creep' ? r.logRange(0.007, 0.022) : 0;

  // Two in three creep from lock-up on, the others some time later.
  const creepDelay = kind === 'creep' && stratum([false, false, true], seed, 2) ? r.range(5, 60) : 0;

  const hands = base.fork('hand');
  const slow = hands.chance(world.slowShare);
  const closing = hands.range(...(slow ? world.slowHand : world.quickHand));
  const noticeS = closing * hands.range(0.3, 0.6);
  const seatBar = hands.chance(0.6) ? Math.round(hands.range(0.3, 0.5) * 20) / 20 : null;
  const targets: number[] = [];
  if (seatBar !== null) targets.push(seatBar);
  if (open) {
    const steps = hands.int(0, 3);
    for (let i = 1; i <= steps; i++) {
      const target = (workingBar * (i + hands.range(-0.2, 0.2))) / (steps + 1);
      if (target > (targets[targets.length - 1] ?? 0.1) + 0.12 && target < workingBar - 0.1)
        targets.push(target);
    }
  }
  targets.push(workingBar);

  return {
    kind,
    seed,
    tap,
    ratedBar,
    uBar,
    ceilingBar,
    workingBar,
    seatBar,
    nominal,
    setBar,
    creepBarPerS,
    creepAtBar: kind === 'creep' ? 0.95 * setBar : null,
    creepDelayS: creepDelay,
    site: {
      airBar: r.range(0.93, 1.03),
      airC: r.range(0, 30),
      compressor: {
        receiverL: r.range(24, 90),
        startBar: supply,
        cutInBar: supply - 0.6,
        cutOutBar: supply + 0.8,
        deliveryLMin: r.range(1.2, 3) * Math.max(80, 60 * nominal * litres),
      },
      regulator: {
        setBar,
        droopBar: r.range(0.05, 0.4),
        conductance: Math.max(total * r.logRange(2, 10), 4e-9),
        lagS: r.chance(0.5) ? r.range(0.002, 0.02) : 0,
        relieving: r.chance(0.5),
      },
      supplyL: r.range(0.1, 1),
      valve: { conductance: valveC, b: r.range(0.2, 0.45), travelS: closing - noticeS, curve: r.range(1, 2) },
      hose: { lengthM: hoseM, innerMm: hoseBore },
      nonReturn: tap === 'packer' && r.chance(0.15) ? 'coupling' : r.chance(0.1) ? 'valve' : 'none',
      packer: {
        pipeMm,
        lengthM,
        limpShare: r.range(0.08, 0.4),
        freeInflationBar: r.range(0.08, 0.45),
        stiffPerBar: r.range(0.005, 0.05),
        creepPerBar: r.range(0.001, 0.01),
      },
      leak: { mbarPerMin: r.chance(0.3) ? r.range(0.5, 8) : 0 },
      heat: { filmWm2K: r.range(3, 12), stir: r.range(1, 6) },
      pipe: { groundC: r.range(4, 16), wallMm: r.range(8, 30) },
    },
    sensor: drawSensor(base.fork('sensor'), seed, uBar, ratedBar, world, variation.biasU ?? null),
    hand: {
      noticeS,
      targets,
      openings: targets.map(() => (open ? hands.range(0.35, 1) : 1)),
      pauses: targets.map((_, i) => (i === 0 && seatBar !== null ? hands.range(6, 14) : hands.range(2, 9))),
      forgets: kind === 'stuck' && open,
    },
    stickAtBar: kind === 'stuck' && !open ? workingBar * r.range(0, 0.98) : null,
  };
}

function hoseConductance(boreMm: number, lengthM: number): number {
  const d = boreMm / 1000;
  return (0.029 * d * d) / Math.sqrt(lengthM / d ** 1.25 + 510);
}

function drawSensor(
  r: Random,
  seed: number,
  uBar: number,
  rated: number,
  world: World,
  biasU: number | null,
): Sensor {
  const plain = stratum([world.plainSensor, null], seed, 4);
  const rateHz = plain?.rateHz ?? stratum(RATES, seed, world.plainSensor === null ? 2 : 8);
  // Inside U: two independent parts, each with a quarter of U as standard deviation, together rarely past U.
  const offset =
    biasU === null ? Math.max(-0.5, Math.min(0.5, 0.25 * r.normal())) * uBar : 0.4 * biasU * uBar;
  const gain =
    biasU === null
      ? (Math.max(-0.5, Math.min(0.5, 0.25 * r.normal())) * uBar) / rated
      : (0.6 * biasU * uBar) / rated;
  return {
    rateHz,
    bits: stratum(BITS, seed, 14),
    spanBar: r.pick(rated > 2 ? [6, 10] : [4, 6, 10]),
    noiseBar: r.logRange(...(plain?.noiseBar ?? ([0.0004, 0.006] as const))),
    noiseTauS: r.chance(0.35) ? r.logRange(0.02, 0.15) : 0,
    lagS: r.chance(0.5) ? r.range(0, 0.05) : 0,
    offsetBar: offset,
    gain: 1 + gain,
    spikeEveryS: r.chance(0.6) ? r.logRange(4, 60) : 0,
  };
}
