/**
 * Thermal properties of pipe walls and what surrounds them: rounded handbook values (common practice, no single
 * source). They serve bounds and sketches, never a proof; k in W/(m·K), rhoCp in J/(m³·K).
 */
export interface Thermal {
  readonly k: number;
  readonly rhoCp: number;
  /** k may lie this factor either way. */
  readonly spread: number;
}

export const WALL: Readonly<
  Record<'clay' | 'concrete' | 'pvc' | 'pe' | 'iron' | 'grp' | 'unknown', Thermal>
> = {
  clay: { k: 1.2, rhoCp: 1.8e6, spread: 1.3 },
  concrete: { k: 1.7, rhoCp: 2.0e6, spread: 1.3 },
  pvc: { k: 0.16, rhoCp: 1.4e6, spread: 1.2 },
  pe: { k: 0.4, rhoCp: 1.9e6, spread: 1.2 },
  iron: { k: 45, rhoCp: 3.6e6, spread: 1.3 },
  grp: { k: 0.3, rhoCp: 1.8e6, spread: 1.5 },
  unknown: { k: 1, rhoCp: 1.9e6, spread: 7 },
};
/** Moist to saturated soil. */
export const GROUND: Thermal = { k: 1.8, rhoCp: 2.5e6, spread: 1.6 };
/** Resin-wet fabric, filled or not. */
export const SLEEVE: Thermal = { k: 0.25, rhoCp: 2.0e6, spread: 1.6 };
/**
 * From what fills the packer to its wall, W/(m²·K), and the factor either way: free convection of gases 2-25 (with radiation),
 * of liquids 50-1000, condensing steam 2500 and more (Incropera & DeWitt, table 1.1: values from memory); of steam there is
 * air in the packer besides.
 */
export const FILM = {
  air: { h: 8, spread: 1.6 },
  water: { h: 200, spread: 4 },
  steam: { h: 100, spread: 4 },
} as const;
