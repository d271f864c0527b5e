import type { ResinDocument } from '../job/resin-document.ts';
import { potLifeAt, type ResinPlan } from './resin.ts';

/** One sleeve that is still to be made, as its own plan has it. */
export interface SleeveToMix {
  readonly resinId: string;
  readonly resin: Pick<ResinDocument, 'name' | 'curePoints' | 'potLife'>;
  readonly packerId: string | null;
  readonly packer: string;
  readonly plan: Pick<ResinPlan, 'massG' | 'hardenerG' | 'potLifeMin'>;
  readonly handlingMin: number | null;
  /** Coldest of ground or pipe that is expected, °C; null: not known. */
  readonly groundC: number | null;
}

/** What one resin has to be there for: the masses of the sleeves whose mass is known. */
export interface MixPlan {
  readonly resinId: string;
  readonly name: string;
  readonly sleeves: number;
  /** Sleeves without a mass: fabric, length or diameter are missing. */
  readonly unknown: number;
  readonly massG: number;
  /** Hardener in it, g; null where one of the sleeves has none. */
  readonly hardenerG: number | null;
  /** The shortest of the pot lives, min; null: none is known. */
  readonly potLifeMin: number | null;
}

/** How long one packer is taken by the sleeves that go in one after the other. */
export interface PackerDay {
  readonly packerId: string;
  readonly name: string;
  readonly sleeves: number;
  /** From mixing to the cure time by the data sheet at the ground's temperature, all of them, min; null: cannot be said. */
  readonly leastMin: number | null;
}

function grouped<T>(all: readonly T[], key: (one: T) => string | null): readonly (readonly T[])[] {
  const groups = new Map<string, T[]>();
  for (const one of all) {
    const id = key(one);
    if (id !== null) groups.set(id, [...(groups.get(id) ?? []), one]);
  }
  return [...groups.values()];
}

const sum = (values: readonly number[]): number => values.reduce((s, v) => s + v, 0);

/** Amounts for the day, resin by resin. Each sleeve is mixed for itself: the pot life does not wait for a cure. */
export function mixPlans(sleeves: readonly SleeveToMix[]): readonly MixPlan[] {
  return grouped(sleeves, (s) => s.resinId).map((group) => {
    const known = group.filter((s) => s.plan.massG !== null);
    const lives = group.flatMap((s) => (s.plan.potLifeMin === null ? [] : [s.plan.potLifeMin]));
    const hardener = known.map((s) => s.plan.hardenerG);
    return {
      resinId: group[0]!.resinId,
      name: group[0]!.resin.name,
      sleeves: group.length,
      unknown: group.length - known.length,
      massG: sum(known.map((s) => s.plan.massG ?? 0)),
      hardenerG: hardener.length === 0 || hardener.includes(null) ? null : sum(hardener.map((g) => g ?? 0)),
      potLifeMin: lives.length === 0 ? null : Math.min(...lives),
    };
  });
}

/** One sleeve's time in the packer, min: its handling and the data sheet's cure time; null: one of them is not known. */
function turnMin({ handlingMin, groundC, resin }: SleeveToMix): number | null {
  if (handlingMin === null || groundC === null) return null;
  const cure = potLifeAt(resin.curePoints, groundC);
  const coldest = resin.curePoints[0]?.c ?? Number.POSITIVE_INFINITY;
  // Colder than the sheet nothing is told of the cure.
  return cure === null || groundC < coldest ? null : handlingMin + cure.minutes;
}

/** Packers that have more than one sleeve to do. */
export function packerDays(sleeves: readonly SleeveToMix[]): readonly PackerDay[] {
  return grouped(sleeves, (s) => s.packerId)
    .filter((group) => group.length > 1)
    .map((group) => {
      const turns = group.map(turnMin);
      return {
        packerId: group[0]!.packerId!,
        name: group[0]!.packer,
        sleeves: group.length,
        leastMin: turns.includes(null) ? null : sum(turns.map((t) => t ?? 0)),
      };
    });
}
