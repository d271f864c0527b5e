/** Faults that come when the work has come so far, whenever that is: a trainee takes the time that it takes. */
import type { RigFault } from './faults.ts';
import type { SiteTruth } from './site.ts';

/** How far the work has come. Pressures are the packer's own, gauge, bar. */
export type Moment =
  /** From the start. */
  | { readonly when: 'start' }
  /** Air goes in, and the packer stands over so much. */
  | { readonly when: 'filling'; readonly overBar: number }
  /** It has stood over so much, valve and vent shut, for so long without a break. */
  | { readonly when: 'shut'; readonly overBar: number; readonly forS: number }
  /** Air is let out, and the packer stands under so much after it stood over its double. */
  | { readonly when: 'venting'; readonly underBar: number };

export interface Planned {
  readonly at: Moment;
  /** So long after that, s. */
  readonly afterS?: number;
  readonly fault: RigFault;
}

export interface Triggers {
  /** What is due at that time; each comes once. */
  due(truth: SiteTruth, nowS: number): readonly RigFault[];
}

const NONE: readonly RigFault[] = [];

class Trigger {
  private stoodFromS: number | null = null;
  private wasHigh = false;
  private metS: number | null = null;
  private done = false;

  constructor(private readonly planned: Planned) {}

  due(truth: SiteTruth, nowS: number): RigFault | null {
    if (this.done) return null;
    if (this.metS === null && this.isMet(truth, nowS)) this.metS = nowS;
    if (this.metS === null || nowS < this.metS + (this.planned.afterS ?? 0)) return null;
    this.done = true;
    return this.planned.fault;
  }

  private isMet({ packerBar, valveOpen, ventOpen }: SiteTruth, nowS: number): boolean {
    const { at } = this.planned;
    switch (at.when) {
      case 'start':
        return true;
      case 'filling':
        return valveOpen > 0 && ventOpen === 0 && packerBar > at.overBar;
      case 'shut': {
        const stands = valveOpen === 0 && ventOpen === 0 && packerBar > at.overBar;
        this.stoodFromS = stands ? (this.stoodFromS ?? nowS) : null;
        return this.stoodFromS !== null && nowS - this.stoodFromS >= at.forS;
      }
      case 'venting':
        this.wasHigh ||= packerBar > 2 * at.underBar;
        return this.wasHigh && ventOpen > 0 && packerBar < at.underBar;
      default:
        return at satisfies never;
    }
  }
}

export function createTriggers(planned: readonly Planned[]): Triggers {
  const all = planned.map((p) => new Trigger(p));
  return {
    due(truth, nowS) {
      if (all.length === 0) return NONE;
      return all.flatMap((t) => t.due(truth, nowS) ?? []);
    },
  };
}
