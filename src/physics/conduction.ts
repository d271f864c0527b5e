/**
 * Heat in the wall round a packer: radial conduction through layers (sleeve, pipe, ground), per metre of pipe. SI
 * units; temperatures in °C.
 */

export interface Layer {
  /** Outer radius, m; its inner radius is the one before's. */
  readonly outer: number;
  /** Thermal conductivity, W/(m·K). */
  readonly k: number;
  /** Density times specific heat, J/(m³·K). */
  readonly rhoCp: number;
}

/** A boundary: fixed temperature, or a film of h W/(m²·K) to a medium of that temperature (h = 0 is insulated). */
export type Boundary = { readonly c: number } | { readonly h: number; readonly c: number };

/** Thermal resistance of one layer of a cylinder, K·m/W: ln(r2/r1) / (2πk). */
export const layerResistance = (inner: number, outer: number, k: number): number =>
  Math.log(outer / inner) / (2 * Math.PI * k);

/** Thermal resistance of a film on a cylinder, K·m/W: 1 / (2π·r·h). */
export const filmResistance = (radius: number, h: number): number => 1 / (2 * Math.PI * radius * h);

/** Cells from the inside outwards, and what they hold. */
export interface RadialGrid {
  /** Radii of the cell faces, m (one more than cells) and of the cell centres. */
  readonly faces: Float64Array;
  readonly centres: Float64Array;
  /** Index of the layer that a cell lies in. */
  readonly layer: Int32Array;
  /** Heat capacity of a cell, J/K per metre, and cross-section, m². */
  readonly capacity: Float64Array;
  readonly area: Float64Array;
  /** Conductance between neighbours, W/K per metre: [i] is between i − 1 and i; ends: to the surfaces. */
  readonly conductance: Float64Array;
  /** Temperature of each cell, °C. */
  readonly c: Float64Array;
  readonly work: Float64Array;
  readonly rhs: Float64Array;
}

/** Layers cut into cells of equal thickness, `cells[i]` in layer i, all at temperature `startC`. */
export function radialGrid(
  inner: number,
  layers: readonly Layer[],
  cells: readonly number[],
  startC: number,
): RadialGrid {
  const n = cells.reduce((s, x) => s + x, 0);
  if (!(inner > 0) || n < 1 || cells.length !== layers.length)
    throw new RangeError('grid needs cells in every layer');
  const faces = new Float64Array(n + 1);
  const layer = new Int32Array(n);
  faces[0] = inner;
  let i = 0;
  let from = inner;
  layers.forEach((l, li) => {
    const m = cells[li] as number;
    if (!(l.outer > from) || m < 1) throw new RangeError('layers must grow outwards');
    for (let j = 1; j <= m; j++) {
      layer[i] = li;
      faces[++i] = from + ((l.outer - from) * j) / m;
    }
    from = l.outer;
  });
  const centres = new Float64Array(n);
  const capacity = new Float64Array(n);
  const area = new Float64Array(n);
  const conductance = new Float64Array(n + 1);
  const half = (at: number, inner: number, outer: number): number =>
    layerResistance(inner, outer, (layers[layer[at] as number] as Layer).k);
  for (let j = 0; j < n; j++) {
    const a = faces[j] as number;
    const b = faces[j + 1] as number;
    // The radius that halves the area: the cell's mean temperature is nearest to the one there.
    centres[j] = Math.sqrt((a * a + b * b) / 2);
    area[j] = Math.PI * (b * b - a * a);
    capacity[j] = (area[j] as number) * (layers[layer[j] as number] as Layer).rhoCp;
  }
  for (let j = 0; j <= n; j++) {
    const f = faces[j] as number;
    const below = j === 0 ? 0 : half(j - 1, centres[j - 1] as number, f);
    const above = j === n ? 0 : half(j, f, centres[j] as number);
    conductance[j] = 1 / (below + above);
  }
  return {
    faces,
    centres,
    layer,
    capacity,
    area,
    conductance,
    c: new Float64Array(n).fill(startC),
    work: new Float64Array(n),
    rhs: new Float64Array(n),
  };
}

export interface StepHeat {
  /** Heat that entered through the inner and through the outer surface in the step, J per metre. */
  readonly inJ: number;
  readonly outJ: number;
}

const series = (g: number, film: Boundary, radius: number): number =>
  'h' in film ? (film.h === 0 ? 0 : 1 / (1 / g + filmResistance(radius, film.h))) : g;

/**
 * One implicit step (backward Euler: stable at any length, first order in time) of dt seconds. `source` is the heat
 * made in each cell, W/m³. The grid's temperatures are replaced; energy balances to rounding.
 */
export function stepRadial(
  grid: RadialGrid,
  dt: number,
  inside: Boundary,
  outside: Boundary,
  source?: Float64Array,
): StepHeat {
  const { c, capacity, conductance, area, work, rhs } = grid;
  const n = c.length;
  const gIn = series(conductance[0] as number, inside, grid.faces[0] as number);
  const gOut = series(conductance[n] as number, outside, grid.faces[n] as number);
  // Thomas' algorithm: the matrix is diagonally dominant, so that it needs no pivoting.
  for (let i = 0; i < n; i++) {
    const left = i === 0 ? gIn : (conductance[i] as number);
    const right = i === n - 1 ? gOut : (conductance[i + 1] as number);
    const m = (capacity[i] as number) / dt;
    let d = m + left + right;
    let b = m * (c[i] as number) + (source === undefined ? 0 : (source[i] as number) * (area[i] as number));
    if (i === 0) b += left * inside.c;
    else {
      d -= left * (work[i - 1] as number);
      b += left * (rhs[i - 1] as number);
    }
    if (i === n - 1) b += right * outside.c;
    work[i] = i === n - 1 ? 0 : right / d;
    rhs[i] = b / d;
  }
  c[n - 1] = rhs[n - 1] as number;
  for (let i = n - 2; i >= 0; i--) c[i] = (rhs[i] as number) + (work[i] as number) * (c[i + 1] as number);
  return {
    inJ: gIn * (inside.c - (c[0] as number)) * dt,
    outJ: gOut * (outside.c - (c[n - 1] as number)) * dt,
  };
}
