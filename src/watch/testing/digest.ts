import { createHash } from 'node:crypto';
import type { WatchState } from '../step.ts';
import { viewOf } from '../step.ts';

/** Far above what the last digits of another JavaScript engine's functions come to. */
const DIGITS = 6;

const told = (value: unknown): string =>
  JSON.stringify(value, (_, v: unknown) =>
    typeof v === 'number' && !Number.isInteger(v) ? Number(v.toPrecision(DIGITS)) : v,
  ) ?? '';

/**
 * What a run comes to on its way, in few letters: a hash a member of the watch's state and of what is shown of it. Records keep such
 * states, and whoever judges a record again holds its own against them: other numbers would call every old record changed.
 */
export class Digest {
  private readonly hashes = new Map<string, ReturnType<typeof createHash>>();

  readonly look = (w: WatchState, tUs: number): void => {
    for (const [name, value] of Object.entries(w)) this.take(name, value);
    for (const [name, value] of Object.entries(viewOf(w, tUs))) this.take(`shown ${name}`, value);
  };

  take(name: string, value: unknown): void {
    let hash = this.hashes.get(name);
    if (hash === undefined) {
      hash = createHash('sha256');
      this.hashes.set(name, hash);
    }
    hash.update(`${told(value)}\n`);
  }

  get of(): Readonly<Record<string, string>> {
    return Object.fromEntries(
      [...this.hashes].map(([name, hash]) => [name, hash.digest('hex').slice(0, 12)]),
    );
  }
}
