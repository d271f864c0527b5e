import type { Layer, Material } from './wall.ts';
import { MATERIALS } from './wall.ts';

/** Factors on the handbook conductivities: real materials lie tens of percent apart. Default 1. */
export interface Spread {
  readonly rubber?: number;
  readonly sleeve?: number;
  readonly pipe?: number;
  readonly ground?: number;
}

/** The layers from the packer's inside out to undisturbed ground, and the radius at which they begin. */
export function pipeLayers(pipe: {
  readonly pipeMm: number;
  readonly sleeveMm: number;
  readonly rubberMm: number;
  readonly wallMm: number;
  readonly material: keyof typeof MATERIALS;
  readonly ground: keyof typeof MATERIALS;
  readonly contactWm2K: number;
  readonly spread?: Spread;
}): { readonly innerRadiusM: number; readonly layers: readonly Layer[] } {
  const innerRadiusM = (pipe.pipeMm / 2 - pipe.sleeveMm - pipe.rubberMm) / 1000;
  if (!(innerRadiusM > 0)) throw new RangeError('sleeve and packer wall do not fit the pipe');
  const spread = pipe.spread ?? {};
  const of = (material: Material, factor = 1): Material => ({ ...material, k: material.k * factor });
  return {
    innerRadiusM,
    layers: [
      {
        name: 'rubber',
        material: of(MATERIALS.rubber, spread.rubber),
        thicknessM: pipe.rubberMm / 1000,
        nodes: 4,
      },
      {
        name: 'sleeve',
        material: of(MATERIALS.sleeve, spread.sleeve),
        thicknessM: pipe.sleeveMm / 1000,
        nodes: 6,
        cures: true,
        contactWm2K: pipe.contactWm2K,
      },
      {
        name: 'pipe',
        material: of(MATERIALS[pipe.material], spread.pipe),
        thicknessM: pipe.wallMm / 1000,
        nodes: 5,
      },
      // A metre of ground: the warmth of a cure of hours does not get farther (sqrt(4·α·t) is 0.3 m in 8 h).
      {
        name: 'ground',
        material: of(MATERIALS[pipe.ground], spread.ground),
        thicknessM: 1,
        nodes: 12,
        stretch: 1.4,
      },
    ],
  };
}
