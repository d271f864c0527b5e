/**
 * Radial heat conduction through packer wall, sleeve, pipe and ground, per metre of pipe, with the resin's
 * reaction as a source. Finite volumes on cylinder shells, implicit in time (backward Euler), so that it stays
 * stable with any step; the heat it takes and gives is booked exactly.
 */
import { type CureState, cureStep, type Kinetics } from './cure.ts';

/** Heat properties: conductivity W/(m·K), density kg/m³, specific heat J/(kg·K). */
export interface Material {
  readonly k: number;
  readonly rho: number;
  readonly cp: number;
}

/** Generic handbook values; they vary by tens of percent in the field, as a campaign should. */
export const MATERIALS = {
  rubber: { k: 0.2, rho: 1150, cp: 1700 },
  sleeve: { k: 0.25, rho: 1500, cp: 1400 },
  clay: { k: 1.0, rho: 2000, cp: 850 },
  concrete: { k: 1.6, rho: 2300, cp: 900 },
  pvc: { k: 0.17, rho: 1400, cp: 1000 },
  pe: { k: 0.42, rho: 950, cp: 1900 },
  iron: { k: 50, rho: 7200, cp: 460 },
  grp: { k: 0.3, rho: 1850, cp: 1100 },
  'dry ground': { k: 0.6, rho: 1600, cp: 900 },
  'wet ground': { k: 2.0, rho: 2000, cp: 1500 },
  water: { k: 0.6, rho: 1000, cp: 4190 },
} as const satisfies Record<string, Material>;

export interface Layer {
  readonly name: string;
  readonly material: Material;
  readonly thicknessM: number;
  readonly nodes: number;
  /** Each shell this much thicker than the one before (ground). 1: all the same. */
  readonly stretch?: number;
  /** The layer that cures. At most one. */
  readonly cures?: boolean;
  /** Contact conductance to the next layer, W/(m²·K); default: perfect contact. */
  readonly contactWm2K?: number;
}

/** Gas as the innermost node: its heat capacity per metre of pipe and the film towards the wall. */
export interface GasNode {
  readonly jPerKm: number;
  readonly filmWm2K: number;
  /** Loss through the packer's ends: W/(m·K) per metre of packer, towards that temperature. */
  readonly ends?: { readonly wmK: number; readonly c: number };
}

export interface ColumnOptions {
  readonly innerRadiusM: number;
  readonly layers: readonly Layer[];
  /** Temperature of each layer at the start, °C, by name; else groundC. */
  readonly startC?: Readonly<Record<string, number>>;
  /** Held at the outer edge, °C. */
  readonly groundC: number;
  /** null: the heat comes from outside through addHeat (the site's own gas). */
  readonly gas: GasNode | null;
  readonly gasStartC?: number;
  /** Water that seeps between sleeve and pipe: conductance W/(m²·K) and its temperature. */
  readonly seep?: { readonly wm2K: number; readonly c: number } | null;
  readonly kinetics?: Kinetics | null;
}

const ZERO_C = 273.15;

export class Column {
  /** K, node by node, gas first where there is one. */
  readonly t: Float64Array;
  /** J/(m·K). */
  readonly capacity: Float64Array;
  /** Conductance between node i and i+1 (the last: to the held edge), W/(m·K). */
  readonly conductance: Float64Array;
  readonly cure: CureState;
  /** First node of the curing layer and how many it has; count 0 where none cures. */
  readonly cureFrom: number;
  readonly cureCount: number;
  /** First node of each layer by name. */
  readonly first: Readonly<Record<string, number>>;
  readonly last: Readonly<Record<string, number>>;
  /** Heat that left through the held edge, with the seeping water, by the ends, and that the resin gave, J/m, since start. */
  lostJ = 0;
  seepedJ = 0;
  endsJ = 0;
  reactedJ = 0;
  groundK: number;
  private readonly endsG: number;
  private readonly endsK: number;
  private readonly seepNode: number = -1;
  private readonly seepG: number = 0;
  private readonly seepK: number = 0;
  private readonly cureMass: Float64Array;
  private readonly kinetics: Kinetics | null;
  /** Heat of reaction in this step by node, J/m. */
  private readonly source: Float64Array;
  private readonly scratchA: Float64Array;
  private readonly scratchB: Float64Array;
  private pendingJ = 0;
  private newestGain = 0;

  constructor(options: ColumnOptions) {
    const gasNodes = options.gas === null ? 0 : 1;
    const n = gasNodes + options.layers.reduce((sum, l) => sum + l.nodes, 0);
    this.t = new Float64Array(n);
    this.capacity = new Float64Array(n);
    this.conductance = new Float64Array(n);
    this.cureMass = new Float64Array(n);
    this.source = new Float64Array(n);
    this.scratchA = new Float64Array(n);
    this.scratchB = new Float64Array(n);
    this.cure = { degree: new Float64Array(n), induction: new Float64Array(n) };
    this.kinetics = options.kinetics ?? null;
    this.groundK = options.groundC + ZERO_C;
    this.endsG = options.gas?.ends?.wmK ?? 0;
    this.endsK = (options.gas?.ends?.c ?? 0) + ZERO_C;
    const first: Record<string, number> = {};
    const last: Record<string, number> = {};
    // Resistance from a node's middle outwards, waiting for the next node's inward part.
    let outward = 0;
    let inner = options.innerRadiusM;
    let i = 0;
    if (options.gas !== null) {
      this.capacity[0] = options.gas.jPerKm;
      this.t[0] = (options.gasStartC ?? options.groundC) + ZERO_C;
      outward = 1 / (2 * Math.PI * inner * options.gas.filmWm2K);
      i = 1;
    }
    let cureFrom = 0;
    let cureCount = 0;
    for (const layer of options.layers) {
      const { k, rho, cp } = layer.material;
      const stretch = layer.stretch ?? 1;
      const share = stretch === 1 ? 1 / layer.nodes : (stretch - 1) / (stretch ** layer.nodes - 1);
      let thick = layer.thicknessM * share;
      first[layer.name] = i;
      if (layer.cures === true) {
        cureFrom = i;
        cureCount = layer.nodes;
      }
      for (let j = 0; j < layer.nodes; j++) {
        const outer = inner + thick;
        // The node sits where half the shell's resistance lies on either side.
        const middle = Math.sqrt(inner * outer);
        if (i > 0) this.conductance[i - 1] = 1 / (outward + Math.log(middle / inner) / (2 * Math.PI * k));
        outward = Math.log(outer / middle) / (2 * Math.PI * k);
        const area = Math.PI * (outer * outer - inner * inner);
        this.capacity[i] = area * rho * cp;
        this.t[i] = (options.startC?.[layer.name] ?? options.groundC) + ZERO_C;
        if (layer.cures === true) this.cureMass[i] = area * rho;
        inner = outer;
        thick *= stretch;
        i++;
      }
      last[layer.name] = i - 1;
      if (layer.contactWm2K !== undefined) outward += 1 / (2 * Math.PI * inner * layer.contactWm2K);
      if (layer.cures === true && options.seep) {
        this.seepNode = i - 1;
        this.seepG = 2 * Math.PI * inner * options.seep.wm2K;
        this.seepK = options.seep.c + ZERO_C;
      }
    }
    this.conductance[n - 1] = 1 / outward;
    this.cureFrom = cureFrom;
    this.cureCount = cureCount;
    this.first = first;
    this.last = last;
  }

  /** Heat for the innermost node with the next step, J/m (the gas of the site gives it). */
  addHeat(joulePerM: number): void {
    this.pendingJ += joulePerM;
  }

  /** Largest change of a node's temperature in the last step, K. */
  lastChangeK = 0;

  /** One implicit step of h seconds. */
  step(h: number): void {
    const { t, capacity: c, conductance: g, scratchA: cp, scratchB: dp } = this;
    const n = t.length;
    if (this.kinetics !== null && this.cureCount > 0) this.react(this.kinetics, h);
    else this.newestGain = 0;
    // Thomas: forward elimination on (C/h + G_in + G_out)·T' − G_in·T'_in − G_out·T'_out = C/h·T + sources.
    for (let i = 0; i < n; i++) {
      const ch = c[i]! / h;
      const gin = i === 0 ? 0 : g[i - 1]!;
      const gout = g[i]!;
      let diagonal = ch + gin + gout;
      let right = ch * t[i]! + this.source[i]! / h;
      if (i === 0) {
        right += this.pendingJ / h + this.endsG * this.endsK;
        diagonal += this.endsG;
      }
      if (i === n - 1) right += gout * this.groundK;
      if (i === this.seepNode) {
        diagonal += this.seepG;
        right += this.seepG * this.seepK;
      }
      const upper = i === n - 1 ? 0 : -gout;
      const m = i === 0 ? diagonal : diagonal + gin * cp[i - 1]!;
      cp[i] = upper / m;
      dp[i] = (i === 0 ? right : right + gin * dp[i - 1]!) / m;
    }
    let biggest = 0;
    let next = 0;
    for (let i = n - 1; i >= 0; i--) {
      const value = i === n - 1 ? dp[i]! : dp[i]! - cp[i]! * next;
      const change = Math.abs(value - t[i]!);
      if (change > biggest) biggest = change;
      t[i] = value;
      next = value;
    }
    this.lastChangeK = biggest;
    this.pendingJ = 0;
    this.lostJ += h * g[n - 1]! * (t[n - 1]! - this.groundK);
    this.endsJ += h * this.endsG * (t[0]! - this.endsK);
    if (this.seepNode >= 0) this.seepedJ += h * this.seepG * (t[this.seepNode]! - this.seepK);
  }

  /** Largest gain in degree of cure in the last step. */
  get lastGain(): number {
    return this.newestGain;
  }

  private react(k: Kinetics, h: number): void {
    let best = 0;
    for (let j = 0; j < this.cureCount; j++) {
      const i = this.cureFrom + j;
      const gain = cureStep(k, this.cure, i, this.t[i]!, h);
      const heat = gain * this.cureMass[i]! * k.heatJkg;
      this.source[i] = heat;
      this.reactedJ += heat;
      if (gain > best) best = gain;
    }
    this.newestGain = best;
  }

  /** Heat stored against 0 K, J/m: for the balance. */
  get storedJ(): number {
    let sum = 0;
    for (let i = 0; i < this.t.length; i++) sum += this.capacity[i]! * this.t[i]!;
    return sum;
  }

  /** Least and mean degree of cure in the sleeve. 0 and 0 without kinetics. */
  get leastCured(): number {
    let least = 1;
    for (let j = 0; j < this.cureCount; j++) least = Math.min(least, this.cure.degree[this.cureFrom + j]!);
    return this.cureCount === 0 ? 0 : least;
  }

  get meanCured(): number {
    let sum = 0;
    for (let j = 0; j < this.cureCount; j++) sum += this.cure.degree[this.cureFrom + j]!;
    return this.cureCount === 0 ? 0 : sum / this.cureCount;
  }
}
