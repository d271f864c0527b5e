/** E(t) in mV = Σ c_i · t^i, plus a0 · exp(a1 · (t − a2)²) where there is an exponential (type K above 0 °C). */
export interface ForwardPiece {
  /** °C, both ends included. */
  readonly lo: number;
  readonly hi: number;
  readonly c: readonly number[];
  readonly exponential: { readonly a0: number; readonly a1: number; readonly a2: number } | null;
}

/** t(E) in °C ≈ Σ d_i · E^i, good to about 0.05 °C: the start of the iteration. */
export interface InversePiece {
  /** mV, both ends included. */
  readonly lo: number;
  readonly hi: number;
  readonly d: readonly number[];
}

export interface ThermocoupleFunction {
  /** At least one, ascending, each where the last one ends. */
  readonly forward: readonly [ForwardPiece, ...ForwardPiece[]];
  readonly inverse: readonly InversePiece[];
}
