/**
 * Sleeves whose packer is warmed from outside: hot air, warm water or steam at 40-85 °C, half of them in iron or thick
 * walls, with a sheet that reaches such temperatures. The job sheet names what warms it in two of three, else it says
 * nothing. The rest of the world is the drawn sleeve's own.
 */
import type { Heating } from '../../src/job/setup.ts';
import { createRandom } from '../../src/rig/random.ts';
import { drawSleeve, type SleeveScenario, sheetAt } from './sleeves-scenario.ts';

export const HEATED_PROBES = ['sleeve', 'air', 'pipe'] as const;
export type HeatedProbe = (typeof HEATED_PROBES)[number];

type Medium = Exclude<Heating, 'none' | 'unknown'>;
/** Film between medium and packer, W/(m²·K), and how hot it is, °C. */
const MEDIA: Readonly<Record<Medium, { readonly film: [number, number]; readonly c: [number, number] }>> = {
  'hot-air': { film: [5, 40], c: [40, 75] },
  water: { film: [80, 600], c: [40, 70] },
  steam: { film: [30, 500], c: [60, 85] },
};
const TABLES = [[20], [10, 20], [20, 40, 60], [10, 20, 30, 40], [15, 25, 50], [10, 20, 30, 45, 60]] as const;

export function drawHeated(probe: HeatedProbe, seed: number): SleeveScenario {
  const drawn = drawSleeve(probe, seed);
  const r = createRandom(seed * 8 + 5).fork(`heated ${probe}`);
  const medium: Medium = r.pick(['hot-air', 'hot-air', 'water', 'steam'] as const);
  const { film, c } = MEDIA[medium];
  const wall = r.next();
  const thick =
    wall < 0.3
      ? ({ material: 'iron', wallMm: r.range(7, 15) } as const)
      : wall < 0.5
        ? ({ material: 'concrete', wallMm: r.range(40, 90) } as const)
        : null;
  const sleeveMm = r.range(3, 10);
  const known = r.chance(0.6);
  const options = { ...drawn.options, ...(thick ?? {}), sleeveMm };
  return {
    ...drawn,
    resin: {
      ...sheetAt(r, drawn.options.kinetics, drawn.criterion, drawn.resin.lowestC, r.pick(TABLES)),
      exotherm: drawn.resin.exotherm,
    },
    pipe: {
      ...drawn.pipe,
      ...(thick === null
        ? {}
        : known
          ? { material: thick.material, wallMm: Math.round(thick.wallMm) }
          : { material: 'unknown', wallMm: null }),
      sleeveMm: r.chance(0.7) ? Math.round(sleeveMm * 2) / 2 : null,
    },
    material: thick?.material ?? drawn.material,
    heating: r.chance(0.67) ? medium : 'unknown',
    options: {
      ...options,
      filmWm2K: r.logRange(...film),
      endsWmK: r.logRange(30, 400),
      endsC: r.range(...c),
    },
  };
}
