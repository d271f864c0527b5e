import type {
  Derivation,
  DerivationCode,
  DerivationInput,
  InputCode,
  PlanNote,
  PlanUnit,
  RefusalCode,
  WarningCode,
} from '../job/plan-codes.ts';

export const input = (name: InputCode, value: number, unit: PlanUnit): DerivationInput => ({
  name,
  value,
  unit,
});

/** Collects what a plan has to say while it is made. */
export class Notes {
  readonly derivations: Derivation[] = [];
  readonly warnings: PlanNote<WarningCode>[] = [];
  readonly refusals: PlanNote<RefusalCode>[] = [];

  /** Keeps the number with its formula and gives it back. */
  derive(code: DerivationCode, value: number, unit: PlanUnit, inputs: readonly DerivationInput[]): number {
    this.derivations.push({ code, value, unit, inputs });
    return value;
  }

  warn(code: WarningCode, numbers: readonly DerivationInput[] = [], about: string | null = null): void {
    this.warnings.push({ code, numbers, about });
  }

  refuse(code: RefusalCode, numbers: readonly DerivationInput[] = [], about: string | null = null): void {
    this.refusals.push({ code, numbers, about });
  }
}

/** Rounded to the safe side at a thousandth: limits down, uncertainties up. The slack is for 1.7 − 0.1 and the like. */
export const down = (v: number): number => Math.floor(v * 1000 + 1e-6) / 1000;
export const up = (v: number): number => Math.ceil(v * 1000 - 1e-6) / 1000;
