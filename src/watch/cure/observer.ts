import type { Heating, PipeSetup } from '../../job/setup.ts';
import { filmResistance, layerResistance } from '../../physics/conduction.ts';
import { FILM, GROUND, SLEEVE, WALL } from '../../physics/materials.ts';

/**
 * Temperature of the outermost resin from a probe further in: an observer of the radial heat flow
 * air | film | rubber | sleeve | pipe | ground, implicit in time, that is steered by the measured temperature.
 *
 * What the probe sees and the model does not explain is laid in the sleeve as a whole: warmth is heat of its resin
 * (nothing else makes heat in there), up to what a resin can hold; cold is a sleeve colder than was thought. Without that heat the model would lay the whole fall of temperature between a warm probe and the ground
 * through the sleeve; with it the fall is only that of the heat which really flows outwards. It is a low-pass
 * estimate: the steering acts over a quarter of an hour, so that noise never becomes heat.
 *
 * A packer that is warmed from outside, or of which nobody said that it is not, is another thing: there warmth that is
 * measured may be the heater's. The resin is then given none, and pure conduction from the measured place outwards is
 * what its outer face surely has: whatever heat the resin makes besides only makes it warmer.
 *
 * Range: sleeves of 2-15 mm in pipes of 70-700 mm. It cannot know what the water at a leaking defect does, nor a probe
 * that is not where it is said to be.
 */
export interface Observer {
  /** Nodes from the air outwards: temperature °C, heat capacity J/(m·K), conductance to the next node W/(m·K). */
  t: number[];
  readonly capacity: readonly number[];
  readonly conductance: readonly number[];
  /**
   * Warmed from outside: conductance from the measured place to the first node that is not held at its temperature,
   * W/(m·K), and that node. null: steered by the resin's heat.
   */
  readonly driven: { readonly from: number; readonly conductance: number } | null;
  /** Node that the probe reads, and the first and last node of the sleeve. */
  readonly probe: number;
  readonly sleeveFrom: number;
  readonly sleeveTo: number;
  /** Resistance from the last node of the sleeve to its outer face, and from there to the pipe's first, K·m/W. */
  readonly toFace: number;
  readonly fromFace: number;
  /** Gain of the steering, W/(m·K), and its slow part, W/m. */
  readonly gain: number;
  readonly slowS: number;
  slow: number;
  /** Heat that was credited to the resin, and the most that it may hold, J/m. */
  creditJ: number;
  readonly budgetJ: number;
}

/** 'likely' has handbook values; 'cold' has all that makes the outside colder at once: bounds, not a guess. */
export type Corner = 'likely' | 'cold';

/** Where the job does not say: a thin sleeve of two or three layers, a vitrified clay drain (common practice). */
const SLEEVE_MM = { likely: 4, cold: 6 } as const;
const WALL_MM = 15;
const INNER_MM = 150;
const RUBBER = { mm: 6, k: 0.2, rhoCp: 2e6 } as const;
/** A thick packer wall of poor rubber, through which a warm medium must first come. */
const COLD_RUBBER = { mm: 10, k: 0.16 } as const;
/** What fills the packer, by what warms it. */
const MEDIUM: Readonly<Record<Heating, keyof typeof FILM>> = {
  unknown: 'air',
  none: 'air',
  'hot-air': 'air',
  water: 'water',
  steam: 'steam',
};
/**
 * A probe between packer and sleeve leans on both: of the fall between medium and sleeve it may have so much before it
 * (common practice, no source).
 */
const CONTACT = { likely: 0.1, cold: 0.25 } as const;
/** Air at 2.5 bar absolute: density times specific heat at constant volume, J/(m³·K). */
const AIR_RHO_CV = 3 * 718;
/** Ground that a cure of hours can warm: its diffusion length is 0.3 m in 8 h. */
const GROUND_M = 0.5;
const NODES = { rubber: 2, sleeve: 4, pipe: 4, ground: 8 } as const;
const GROUND_STRETCH = 1.5;
/**
 * Steering: the heat of sleeve and packer wall is moved in this time, and the slow part in that, s. Behind the
 * packer's wall, whose own delay is some four minutes, it must be slower or it would swing.
 */
const FAST_S = { sleeve: 90, air: 150 } as const;
const SLOW_S = { sleeve: 360, air: 600 } as const;
/** The most heat that a resin-wet sleeve gives off, J/m³: 450 kJ/kg of epoxy at half the mass, 1500 kg/m³. */
const HEAT_JM3 = 600e6;

export function createObserver(
  pipe: PipeSetup | null,
  place: 'sleeve' | 'air',
  corner: Corner,
  probeC: number,
  groundC: number,
  heating: Heating = 'none',
): Observer {
  const cold = corner === 'cold';
  const isDriven = heating !== 'none';
  const rubber = isDriven && cold ? { ...RUBBER, ...COLD_RUBBER } : RUBBER;
  const sleeveM = (pipe?.sleeveMm ?? SLEEVE_MM[corner]) / 1000;
  const outer = Math.max((pipe?.innerMm ?? INNER_MM) / 2000, sleeveM + rubber.mm / 1000 + 0.005);
  const wall = WALL[pipe?.material ?? 'unknown'];
  const layers = [
    { m: rubber.mm / 1000, k: rubber.k, rhoCp: rubber.rhoCp, nodes: NODES.rubber, stretch: 1 },
    {
      m: sleeveM,
      k: cold ? SLEEVE.k / SLEEVE.spread : SLEEVE.k,
      rhoCp: SLEEVE.rhoCp,
      nodes: NODES.sleeve,
      stretch: 1,
    },
    {
      m: (pipe?.wallMm ?? WALL_MM) / 1000,
      k: cold ? wall.k * wall.spread : wall.k,
      rhoCp: wall.rhoCp,
      nodes: NODES.pipe,
      stretch: 1,
    },
    {
      m: GROUND_M,
      k: cold ? GROUND.k * GROUND.spread : GROUND.k,
      rhoCp: GROUND.rhoCp,
      nodes: NODES.ground,
      stretch: GROUND_STRETCH,
    },
  ];
  let inner = outer - sleeveM - rubber.mm / 1000;
  const bore = inner;
  const capacity = [Math.PI * inner * inner * AIR_RHO_CV];
  const conductance: number[] = [];
  const faces: number[] = [];
  const film = FILM[MEDIUM[heating]];
  const filmH = isDriven && cold ? film.h / film.spread : film.h;
  let outward = filmResistance(inner, filmH);
  for (const layer of layers) {
    const { stretch, nodes } = layer;
    let thick = stretch === 1 ? layer.m / nodes : (layer.m * (stretch - 1)) / (stretch ** nodes - 1);
    for (let j = 0; j < nodes; j++) {
      const next = inner + thick;
      const middle = Math.sqrt(inner * next);
      const inward = layerResistance(inner, middle, layer.k);
      faces.push(outward, inward);
      conductance.push(1 / (outward + inward));
      outward = layerResistance(middle, next, layer.k);
      capacity.push(Math.PI * (next * next - inner * inner) * layer.rhoCp);
      inner = next;
      thick *= stretch;
    }
  }
  conductance.push(1 / outward);
  const sleeveFrom = 1 + NODES.rubber;
  const sleeveTo = sleeveFrom + NODES.sleeve - 1;
  const warm = capacity.slice(0, sleeveTo + 1).reduce((a, b) => a + b, 0);
  // The wall is at ground temperature until shown warm; of a sleeve behind a probe in the air nothing is known.
  const sleeveC = place === 'sleeve' ? probeC : cold ? Math.min(probeC, groundC) : (probeC + groundC) / 2;
  const start = isDriven && place === 'air' ? Math.min(probeC, groundC) : sleeveC;
  const t = capacity.map((_, i) => (i < sleeveFrom ? probeC : i <= sleeveTo ? start : groundC));
  const before = filmResistance(bore, filmH) + layerResistance(bore, bore + rubber.mm / 1000, rubber.k);
  const driven =
    place === 'air'
      ? { from: 1, conductance: conductance[0]! }
      : {
          from: sleeveFrom,
          conductance: 1 / (CONTACT[corner] * before + faces[2 * (sleeveFrom - 1) + 1]!),
        };
  return {
    driven: isDriven ? driven : null,
    t,
    capacity,
    conductance,
    probe: place === 'air' ? 0 : sleeveFrom,
    sleeveFrom,
    sleeveTo,
    toFace: faces[2 * sleeveTo]!,
    fromFace: faces[2 * sleeveTo + 1]!,
    gain: warm / FAST_S[place],
    slowS: SLOW_S[place],
    slow: 0,
    creditJ: 0,
    budgetJ: Math.PI * (outer * outer - (outer - sleeveM) ** 2) * HEAT_JM3,
  };
}

const up = new Float64Array(32);
const rhs = new Float64Array(32);

/** Heat that the steering lays in the sleeve in a step of dt seconds, W/m. */
function steer(o: Observer, dt: number, probeC: number): number {
  const error = probeC - o.t[o.probe]!;
  o.slow += (o.gain * error * dt) / o.slowS;
  let heat = o.gain * error + o.slow;
  const most = (o.budgetJ - o.creditJ) / dt;
  if (heat > most) {
    heat = Math.max(0, most);
    o.slow = Math.min(o.slow, heat);
  }
  o.creditJ = Math.max(0, o.creditJ + heat * dt);
  return heat;
}

/** One step of dt seconds with the probe at probeC: the temperature of the sleeve's outer face, °C. */
export function observe(o: Observer, dt: number, probeC: number, groundC: number): number {
  const { t, capacity, conductance, driven, sleeveFrom, sleeveTo } = o;
  const n = t.length;
  const first = driven?.from ?? 0;
  const share = driven === null ? steer(o, dt, probeC) / (sleeveTo - sleeveFrom + 1) : 0;
  for (let i = 0; i < first; i++) t[i] = probeC;
  for (let i = first; i < n; i++) {
    const left = i > first ? conductance[i - 1]! : (driven?.conductance ?? 0);
    const right = conductance[i]!;
    const m = capacity[i]! / dt;
    let d = m + left + right;
    let b = m * t[i]!;
    if (i >= sleeveFrom && i <= sleeveTo) b += share;
    if (i > first) {
      d -= left * up[i - 1]!;
      b += left * rhs[i - 1]!;
    } else b += left * probeC;
    if (i === n - 1) b += right * groundC;
    up[i] = right / d;
    rhs[i] = b / d;
  }
  t[n - 1] = rhs[n - 1]!;
  for (let i = n - 2; i >= first; i--) t[i] = rhs[i]! + up[i]! * t[i + 1]!;
  return faceC(o);
}

/** Temperature of the sleeve's outer face, °C: where the least cured resin is. */
export function faceC(o: Observer): number {
  const inside = o.t[o.sleeveTo]!;
  const outside = o.t[o.sleeveTo + 1]!;
  return (inside * o.fromFace + outside * o.toFace) / (o.toFace + o.fromFace);
}
