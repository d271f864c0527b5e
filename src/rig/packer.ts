/**
 * The packer's volume against its gauge pressure. Limp first: it unfolds at little pressure up to the
 * free-inflation pressure, where it lies against the pipe; from there the pipe holds it and only rubber, sleeve
 * and folds give way. On top of that, slowly, the rubber creeps and resin is squeezed out.
 */

export interface PackerOptions {
  /** Inner diameter of the pipe, mm. 70-700. */
  readonly pipeMm?: number;
  /** Length that lies against the pipe, m. 0.3-2.5. */
  readonly lengthM?: number;
  /** Volume when limp, as a share of the full volume. 0.05-0.5. */
  readonly limpShare?: number;
  /** Gauge pressure at which it reaches this pipe's wall, bar. 0.05-0.8. */
  readonly freeInflationBar?: number;
  /** Growth once it is held, share of the full volume per bar. 0.005-0.05. */
  readonly stiffPerBar?: number;
  /** Viscoelastic growth in the end, share of the full volume per bar: quick part. 0-0.03. */
  readonly creepPerBar?: number;
  /** Time constant of the quick part, s. 5-120. */
  readonly creepTauS?: number;
  /** Slow part of the creep, share per bar, and its time constant, s. */
  readonly slowCreepPerBar?: number;
  readonly slowCreepTauS?: number;
  /** Volume that squeezed-out resin leaves in the end, share of the full volume. 0-0.02. */
  readonly squeezeShare?: number;
  /** Time constant of squeezing at 1 bar of contact pressure, s; quicker with more. */
  readonly squeezeTauS?: number;
}

const DEFAULTS: Required<PackerOptions> = {
  pipeMm: 150,
  lengthM: 0.6,
  limpShare: 0.2,
  freeInflationBar: 0.25,
  stiffPerBar: 0.015,
  creepPerBar: 0.004,
  creepTauS: 25,
  slowCreepPerBar: 0.004,
  slowCreepTauS: 500,
  squeezeShare: 0.003,
  squeezeTauS: 180,
};

const BAR = 1e5;

export interface Packer {
  readonly options: Required<PackerOptions>;
  /** Volume inside the pipe when full, m³. */
  readonly fullM3: number;
  /** Inside area against the pipe, m². */
  readonly areaM2: number;
  readonly radiusM: number;
  /** Slow volume: creep and squeezed-out resin, m³. */
  readonly slowM3: number;
  /** Prompt volume at a gauge pressure in Pa, m³ (without the slow part). */
  volume(gaugePa: number): number;
  /** Its slope, m³/Pa. */
  slope(gaugePa: number): number;
  /** Lets creep and squeeze-out go on for h seconds at that pressure. @param fluid 1 while the resin flows, 0 gelled */
  relax(h: number, gaugePa: number, fluid: number): void;
  /** A copy of the slow state, and back: the site's step may be refused and taken again. */
  readonly slow: Float64Array;
}

export function createPacker(given: PackerOptions = {}): Packer {
  const options = { ...DEFAULTS, ...given };
  const radiusM = options.pipeMm / 2000;
  const fullM3 = Math.PI * radiusM * radiusM * options.lengthM;
  const limpM3 = fullM3 * options.limpShare;
  const unfoldM3 = fullM3 - limpM3;
  const freePa = options.freeInflationBar * BAR;
  const stiff = (fullM3 * options.stiffPerBar) / BAR;
  const quick = (fullM3 * options.creepPerBar) / BAR;
  const late = (fullM3 * options.slowCreepPerBar) / BAR;
  const squeezeM3 = fullM3 * options.squeezeShare;
  const slow = new Float64Array(3);

  return {
    options,
    fullM3,
    areaM2: 2 * Math.PI * radiusM * options.lengthM,
    radiusM,
    slow,
    get slowM3() {
      return slow[0]! + slow[1]! + slow[2]!;
    },
    // x/(1 + x^8)^(1/8): straight up to the knee at x = 1, then flat; smooth, so that Newton finds its way.
    volume(gaugePa) {
      if (gaugePa <= 0) return limpM3;
      const x = gaugePa / freePa;
      const x4 = x * x * x * x;
      return limpM3 + (unfoldM3 * x) / Math.sqrt(Math.sqrt(Math.sqrt(1 + x4 * x4))) + stiff * gaugePa;
    },
    slope(gaugePa) {
      if (gaugePa <= 0) return 0;
      const x = gaugePa / freePa;
      const x4 = x * x * x * x;
      const w = 1 + x4 * x4;
      return unfoldM3 / (freePa * w * Math.sqrt(Math.sqrt(Math.sqrt(w)))) + stiff;
    },
    relax(h, gaugePa, fluid) {
      const p = Math.max(0, gaugePa);
      slow[0]! += (h / (h + options.creepTauS)) * (quick * p - slow[0]!);
      slow[1]! += (h / (h + options.slowCreepTauS)) * (late * p - slow[1]!);
      const contactBar = (p - freePa) / BAR;
      if (contactBar > 0 && fluid > 0) {
        const x = (h * contactBar * fluid) / options.squeezeTauS;
        slow[2]! += (x / (1 + x)) * (squeezeM3 - slow[2]!);
      }
    },
  };
}
