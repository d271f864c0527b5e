import type { JobDocument } from '../job/job-document.ts';
import type { PackerDocument } from '../job/packer-document.ts';
import { around, between } from '../job/packer-table.ts';
import type { Setup } from '../job/setup.ts';
import { standardAirPressure } from '../physics/atmosphere.ts';
import { endForce, storedEnergyPcc2 } from '../physics/energy.ts';
import { input, type Notes } from './notes.ts';

/** Weather moves the air pressure by some 30 hPa either way about the standard atmosphere. */
const WEATHER_BAR = 0.03;
/** Nothing known: half way between sea level and 1000 m, and wide enough for both and their weather. */
const ASSUMED_AIR = { bar: 0.96, uBar: 0.09 } as const;
/** Expanded uncertainty of a ground temperature entered without one, K (common practice). */
const GROUND_U_K = 3;

/** Air pressure at the site, bar absolute, with its expanded uncertainty. */
export function planAir(job: JobDocument, notes: Notes): Setup['air'] {
  const { air } = job;
  switch (air.source) {
    case 'altitude': {
      const bar = standardAirPressure(air.altitudeM) / 1e5;
      notes.derive('air', bar, 'bar', [input('altitude', air.altitudeM, 'm')]);
      return { bar, uBar: WEATHER_BAR, source: 'altitude' };
    }
    case 'typed':
    case 'sensor':
      notes.derive('air', air.bar, 'bar', []);
      return { bar: air.bar, uBar: air.uBar, source: air.source };
    case 'assumed':
      notes.warn('air-assumed');
      notes.derive('air', ASSUMED_AIR.bar, 'bar', []);
      return { ...ASSUMED_AIR, source: 'assumed' };
  }
}

export function planGround(job: JobDocument, notes: Notes): Setup['ground'] {
  const { temperatureC, uC } = job.ground;
  if (temperatureC === null) {
    notes.warn('ground-unknown');
    return null;
  }
  return { c: temperatureC, uC: uC ?? GROUND_U_K };
}

/** Inner diameter, mm: measured, or nominal and said. */
export function diameterOf(job: JobDocument, notes: Notes): number | null {
  if (job.pipe.innerMm !== null) return job.pipe.innerMm;
  if (job.pipe.dn === null) return null;
  notes.warn('diameter-not-measured', [input('diameter', job.pipe.dn, 'mm')]);
  return job.pipe.dn;
}

/** Relative uncertainty (k = 2) of a volume by the packer's table, and of a cylinder of its usable length. */
const TABLE_U = 0.15;
const CYLINDER_U = 0.4;

/** Gas volume of packer and hose, litres. */
export function planVolume(
  job: JobDocument,
  packer: PackerDocument | null,
  diameterMm: number | null,
  usableMm: number | null,
  notes: Notes,
): Setup['volume'] {
  if (packer === null || diameterMm === null) return null;
  const hose =
    job.hose === null ? 0 : (Math.PI / 4) * (job.hose.innerMm / 1000) ** 2 * job.hose.lengthM * 1000;
  const table = between(packer.volume, diameterMm, (r) => r.litres);
  let litres = table;
  let share = TABLE_U;
  if (table !== null) {
    const { below, above } = around(packer.volume, diameterMm);
    if (below === null || above === null) share = CYLINDER_U;
  } else if (usableMm !== null && usableMm > 0) {
    litres = ((Math.PI / 4) * diameterMm * diameterMm * usableMm) / 1e6;
    share = CYLINDER_U;
    notes.warn('volume-estimated', [input('packer-volume', litres, 'L')]);
  }
  if (litres === null) {
    notes.warn('volume-unknown');
    return null;
  }
  const total = litres + hose;
  notes.derive('volume', total, 'L', [input('packer-volume', litres, 'L'), input('hose-volume', hose, 'L')]);
  return { litres: total, uLitres: share * litres + 0.1 * hose };
}

/** Stored energy (ASME PCC-2 form) and push on the end at the working pressure. */
export function planEnergy(
  workingBar: number,
  airBar: number,
  volume: Setup['volume'],
  diameterMm: number | null,
  notes: Notes,
): void {
  const working = input('working', workingBar, 'bar');
  if (volume !== null) {
    const air = airBar * 1e5;
    const energy = storedEnergyPcc2(workingBar * 1e5 + air, volume.litres / 1000, air);
    notes.derive('energy', energy, 'J', [
      working,
      input('air', airBar, 'bar'),
      input('packer-volume', volume.litres, 'L'),
    ]);
  }
  if (diameterMm !== null)
    notes.derive('end-force', endForce(workingBar * 1e5, diameterMm / 1000), 'N', [
      working,
      input('diameter', diameterMm, 'mm'),
    ]);
}
