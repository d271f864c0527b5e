import type { WatchView } from '../../watch/view.ts';

/** From here on nobody is told to couple or to open anything, bar; more where the reading itself is less sure. */
export const COUPLED_BAR = 0.1;

/** Clearly under pressure, by what is read now or was read last: before the work no stage accounts for it. */
export const isLinePressed = ({ bar, overBar, uBar }: Pick<WatchView, 'bar' | 'overBar' | 'uBar'>): boolean =>
  overBar !== null || (bar !== null && bar > Math.max(COUPLED_BAR, uBar ?? 0));

/** A run that ends here leaves a packer behind that may be full: it reads under pressure, or nobody reads it. */
export const endsUnseen = (view: WatchView | null): boolean =>
  view === null || view.bar === null || view.stale || isLinePressed(view);
