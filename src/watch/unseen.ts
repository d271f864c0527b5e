/**
 * Time that the run clock may not know. A wall clock that jumps is one that was set, or a tablet that slept; a run that
 * is taken up again lay for as long as a wall clock says. Neither is believed by itself: with the first sample after it
 * the device's own clock says how long it was, if it ran on. Where it did not, what must not last too long is counted
 * by the wall clock (pot life, shelves, acknowledgements), and what must not be called too early is not counted at all
 * (cure). Where no sample is missing, no time was unseen.
 */
export interface Unseen {
  /** The wall clock jumped, by so many seconds, and no sample has told yet whether time passed; null: it did not. */
  jump: { readonly atUs: number; readonly seconds: number } | null;
  /** Time on the run clock that the run lay, and that no device has borne out yet, s. */
  layS: number;
  /** When it was found that the tablet slept, and for how long, s. */
  sleptUs: number | null;
  sleptS: number;
}

export const createUnseen = (): Unseen => ({ jump: null, layS: 0, sleptUs: null, sleptS: 0 });
