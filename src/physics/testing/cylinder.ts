import {
  type Boundary,
  filmResistance,
  type Layer,
  layerResistance,
  type RadialGrid,
} from '../conduction.ts';

/** What conduction in a cylinder is held against: closed forms, and readings of the grid. */

export interface SteadyCylinder {
  /** Heat outwards, W per metre of pipe. */
  readonly heat: number;
  /** Temperature at the inner surface and at every layer's outer surface, °C. */
  readonly surfaces: readonly number[];
}

/** Steady composite cylinder in closed form (Carslaw & Jaeger): resistances in series between two boundaries. */
export function compositeCylinder(
  inner: number,
  layers: readonly Layer[],
  inside: Boundary,
  outside: Boundary,
): SteadyCylinder {
  const last = layers[layers.length - 1];
  if (last === undefined) throw new RangeError('a cylinder needs a layer');
  const parts = ['h' in inside ? filmResistance(inner, inside.h) : 0];
  let r = inner;
  for (const layer of layers) {
    parts.push(layerResistance(r, layer.outer, layer.k));
    r = layer.outer;
  }
  const total = parts.reduce((s, p) => s + p, 0) + ('h' in outside ? filmResistance(r, outside.h) : 0);
  const heat = (inside.c - outside.c) / total;
  let at = inside.c;
  const surfaces = parts.map((part) => {
    at -= heat * part;
    return at;
  });
  return { heat, surfaces };
}

/** Heat stored in the grid above 0 °C, J per metre. */
export function storedHeat(grid: RadialGrid): number {
  let sum = 0;
  for (let i = 0; i < grid.c.length; i++) sum += (grid.capacity[i] as number) * (grid.c[i] as number);
  return sum;
}

/** Temperature at the inner or outer surface of cell i, between it and its neighbour, °C. */
export function faceTemperature(grid: RadialGrid, face: number, layers: readonly Layer[]): number {
  const below = face - 1;
  if (below < 0 || face >= grid.c.length) throw new RangeError('face between two cells');
  const k = (i: number) => (layers[grid.layer[i] as number] as Layer).k;
  const r = grid.faces[face] as number;
  const a = layerResistance(grid.centres[below] as number, r, k(below));
  const b = layerResistance(r, grid.centres[face] as number, k(face));
  return ((grid.c[below] as number) * b + (grid.c[face] as number) * a) / (a + b);
}
