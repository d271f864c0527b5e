import type { Layer } from './wall.ts';
import { MATERIALS } from './wall.ts';

/** The layers from the packer's inside out to undisturbed ground, and the radius at which they begin. */
export function pipeLayers(pipe: {
  readonly pipeMm: number;
  readonly sleeveMm: number;
  readonly rubberMm: number;
  readonly wallMm: number;
  readonly material: keyof typeof MATERIALS;
  readonly ground: keyof typeof MATERIALS;
  readonly contactWm2K: number;
}): { readonly innerRadiusM: number; readonly layers: readonly Layer[] } {
  const innerRadiusM = (pipe.pipeMm / 2 - pipe.sleeveMm - pipe.rubberMm) / 1000;
  if (!(innerRadiusM > 0)) throw new RangeError('sleeve and packer wall do not fit the pipe');
  return {
    innerRadiusM,
    layers: [
      { name: 'rubber', material: MATERIALS.rubber, thicknessM: pipe.rubberMm / 1000, nodes: 4 },
      {
        name: 'sleeve',
        material: MATERIALS.sleeve,
        thicknessM: pipe.sleeveMm / 1000,
        nodes: 6,
        cures: true,
        contactWm2K: pipe.contactWm2K,
      },
      {
        name: 'pipe',
        material: MATERIALS[pipe.material],
        thicknessM: pipe.wallMm / 1000,
        nodes: 5,
      },
      // A metre of ground: the warmth of a cure of hours does not get farther (sqrt(4·α·t) is 0.3 m in 8 h).
      { name: 'ground', material: MATERIALS[pipe.ground], thicknessM: 1, nodes: 12, stretch: 1.4 },
    ],
  };
}
