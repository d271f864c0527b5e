import type { DocumentStore } from '../record/stores/store.ts';
import type { LeftPacker } from '../record/types.ts';
import type { RunTitle, Tally } from './tally.ts';

/**
 * A packer does not empty itself when its run stops: whether the run is ended, the page is loaded again or the tablet dies,
 * what it was last seen at stays known until something shows that it is empty. Kept in a document of its own, which outlives
 * the run's record too.
 */
export interface LeftPackers {
  /** Reads what earlier sessions and other tabs left. @param mine the run that this tab records; null: none */
  read(mine: string | null): Promise<void>;
  /**
   * How the packer of a run that goes on stands now. Settles when it is kept; null: there is nothing to be kept.
   * @param nowUs run clock of now
   * @param stops the run ends: the newest pressure is told however short a while ago one was
   */
  follow(
    title: RunTitle,
    tally: Pick<Tally, 'last' | 'pressedUs' | 'proof'>,
    nowUs: number,
    stops?: boolean,
  ): Promise<void> | null;
  /** Somebody has seen that it is empty. */
  sayEmpty(runId: string, title: string): Promise<void>;
  /** Is it empty by somebody's word? */
  isSaidEmpty(runId: string): boolean;
}

/** A pressure that moved less than this is told again only after a while, bar. */
const MOVED_BAR = 0.05;
/** So often at most, ms. */
const LEAST_MS = 1000;
/** So often where it stands still: its time is shown by the minute, ms. */
const STILL_MS = 15_000;

/** Plain data that this program wrote; what is not is left out, never believed. */
function leftIn(id: string, body: unknown): LeftPacker | null {
  const b = body as Partial<LeftPacker> | null;
  const good =
    typeof b === 'object' &&
    b !== null &&
    b.runId === id &&
    typeof b.title === 'string' &&
    (b.bar === null || Number.isFinite(b.bar)) &&
    Number.isFinite(b.utcMs) &&
    (b.emptied === null || (typeof b.emptied === 'object' && Number.isFinite(b.emptied.utcMs)));
  if (!good) return null;
  const packer = b as LeftPacker;
  const how = packer.emptied?.how;
  return how === undefined || how === 'said' || how === 'vent' ? packer : { ...packer, emptied: null };
}

/** Packers that are known to be empty are told of for so many runs, the newest. */
const MOST_EMPTIED = 100;

/**
 * @param isHeld is that run recorded by another tab? Then it is that one's to tell of
 * @param changed told at each change: all that may be full, and the newest of those that are empty
 */
export function createLeftPackers(
  documents: DocumentStore,
  utcMs: () => number,
  isHeld: (runId: string) => Promise<boolean>,
  changed: (left: readonly LeftPacker[]) => void,
): LeftPackers {
  const left = new Map<string, LeftPacker>();
  // What the store has not taken yet is newer than what rests there.
  const unkept = new Map<string, LeftPacker>();
  // One put at a time: two of one revision would refuse each other.
  let saving: Promise<void> = Promise.resolve();

  function tell(): void {
    const all = [...left.values()].sort((a, b) => b.utcMs - a.utcMs);
    let empty = 0;
    changed(all.filter((p) => p.emptied === null || ++empty <= MOST_EMPTIED));
  }

  async function put(body: LeftPacker): Promise<void> {
    const { runId: id } = body;
    const resting = await documents.get('left', id);
    await documents.put({ kind: 'left', id, revision: resting?.revision ?? 0, savedUtcMs: utcMs(), body });
  }

  function keep(packers: readonly LeftPacker[]): Promise<void> {
    for (const packer of packers) {
      left.set(packer.runId, packer);
      unkept.set(packer.runId, packer);
    }
    tell();
    const next = saving.then(async () => {
      for (const packer of packers) {
        await put(packer);
        if (unkept.get(packer.runId) === packer) unkept.delete(packer.runId);
      }
    });
    saving = next.catch(() => undefined);
    return next;
  }

  const emptied = (packer: LeftPacker, how: 'said' | 'vent', atUtcMs: number): LeftPacker => ({
    ...packer,
    emptied: { how, utcMs: Math.round(atUtcMs) },
  });

  return {
    async read(mine) {
      const found = await documents.list('left');
      for (const { id, body } of found) {
        const packer = leftIn(id, body);
        if (packer === null || id === mine) continue;
        const elsewhere = packer.emptied === null && (await isHeld(id));
        if (unkept.has(id)) continue;
        if (elsewhere) left.delete(id);
        else left.set(id, packer);
      }
      tell();
    },
    follow({ runId, title, practice }, { last, pressedUs, proof }, nowUs, stops = false) {
      if (practice) return null;
      const at = (tUs: number): number => Math.round(utcMs() - (nowUs - tUs) / 1000);
      const told = left.get(runId);
      // What came first is told by the run clock alone: the wall clock may be set while the run goes on.
      if (pressedUs === null)
        return proof === null || told === undefined || told.emptied !== null
          ? null
          : keep([emptied(told, proof.how, at(proof.tUs))]);
      // A reading from before air was let in says nothing of what is in there now.
      const seen =
        last === null || last.tUs < pressedUs
          ? { bar: null, utcMs: at(pressedUs) }
          : { bar: Math.round(last.bar * 1000) / 1000, utcMs: at(last.tUs) };
      if (told !== undefined && told.emptied === null && !stops) {
        const forMs = seen.utcMs - told.utcMs;
        const still =
          seen.bar !== null && told.bar !== null
            ? Math.abs(seen.bar - told.bar) < MOVED_BAR
            : seen.bar === told.bar;
        // A wall clock that went back is none that time can be counted by.
        if (forMs >= 0 && forMs < (still ? STILL_MS : LEAST_MS)) return null;
      }
      return keep([{ runId, title, ...seen, emptied: null }]);
    },
    sayEmpty(runId, title) {
      const packer = left.get(runId) ?? { runId, title, bar: null, utcMs: utcMs(), emptied: null };
      return keep([emptied(packer, 'said', utcMs())]);
    },
    isSaidEmpty: (runId) => left.get(runId)?.emptied?.how === 'said',
  };
}
