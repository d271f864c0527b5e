import type { RunSummary } from '../engine/messages.ts';
import type { Services } from './context.ts';

/** A packer that no run watches, and that nobody has seen empty. */
export interface PackerLeft {
  readonly runId: string;
  readonly title: string;
  /** The last pressure that could be trusted, bar; null: none is known. */
  readonly bar: number | null;
  /** When it was read, UTC, ms. */
  readonly utcMs: number | null;
  /** Its run was not closed, and can be resumed. */
  readonly isOpen: boolean;
}

/**
 * Packers that may be full: of runs that ended or stopped before theirs was seen empty. A run on a real line that was not
 * closed is one whatever is known of it, until somebody says that it is empty. The run that goes on is seen itself.
 */
export function packersLeft({ live, openRuns }: Pick<Services, 'live' | 'openRuns'>): readonly PackerLeft[] {
  const now = live.run()?.runId;
  const open = openRuns().filter((r) => !r.practice && r.runId !== now);
  const left = live.left();
  const told = left
    .filter((p) => p.emptied === null && p.runId !== now)
    .map(({ runId, title, bar, utcMs }) => ({
      runId,
      title,
      bar,
      utcMs,
      isOpen: open.some((r) => r.runId === runId),
    }));
  const untold = open
    .filter((r) => !left.some((p) => p.runId === r.runId))
    .map(({ runId, title }) => ({ runId, title, bar: null, utcMs: null, isOpen: true }));
  return [...untold, ...told];
}

/** A run on a real packer was not closed, and none goes on: what hangs on it is not seen. */
export const isRunLeftOpen = (app: Pick<Services, 'live' | 'openRuns'>): boolean =>
  app.live.run() === null && packersLeft(app).some((p) => p.isOpen);

/**
 * Runs that were left open and can be gone on with: those on a real packer first, before a practice. A real line and the practice
 * rig do not stand in for each other.
 * @param kind what is connected; null: nothing yet
 */
export const resumable = (
  { openRuns, serial }: Pick<Services, 'openRuns' | 'serial'>,
  kind: 'serial' | 'rig' | null,
): readonly RunSummary[] =>
  openRuns()
    .filter((run) => (kind === null ? run.practice || serial.supported : run.practice === (kind === 'rig')))
    .sort((a, b) => Number(a.practice) - Number(b.practice));
