/** A cup of the batch's mixed resin: lumped, warmed by its own reaction, cooled by the air around it. */
import { type CureState, cureStep, type Kinetics } from './cure.ts';

export interface CupOptions {
  /** Of the resin as it usually is. */
  readonly kinetics: Kinetics;
  /** Times the usual time that this batch takes. */
  readonly slow: number;
  readonly potC: number;
  readonly airC: number;
  /** Time constant of the vessel in this air, s: 37 min of 200 g in a thin vessel. */
  readonly tauS: number;
  /** Heat of a kilogram of mixed resin against the wet sleeve's. 1-1.6. */
  readonly heat: number;
  /** When a draught begins, s, and what it leaves of the time constant; null: none does. */
  readonly draught: { readonly atS: number; readonly share: number } | null;
}

/** Heat capacity of resin with filler and vessel, J/(kg·K). */
const C_P = 1800;
const STEP_S = 2;

/** The kinetics of a batch that takes `slow` times the usual time. */
export const slowed = (k: Kinetics, slow: number): Kinetics => ({
  ...k,
  k1Ref: k.k1Ref / slow,
  k2Ref: k.k2Ref / slow,
  inductionS: k.inductionS * slow,
});

export class Cup {
  c: number;
  private tS = 0;
  private readonly state: CureState = { degree: new Float64Array(1), induction: new Float64Array(1) };
  private readonly kinetics: Kinetics;
  private readonly o: CupOptions;
  constructor(o: CupOptions) {
    this.o = o;
    this.kinetics = slowed(o.kinetics, o.slow);
    this.c = o.potC;
  }

  /** Lets dtS seconds go by. */
  step(dtS: number): void {
    const { o } = this;
    const n = Math.max(1, Math.ceil(dtS / STEP_S));
    const h = dtS / n;
    for (let i = 0; i < n; i++) {
      this.tS += h;
      const tau = o.draught !== null && this.tS >= o.draught.atS ? o.tauS * o.draught.share : o.tauS;
      const gain = cureStep(this.kinetics, this.state, 0, this.c + 273.15, h);
      this.c += (gain * o.kinetics.heatJkg * o.heat) / C_P - (h * (this.c - o.airC)) / tau;
    }
  }
}
