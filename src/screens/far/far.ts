/**
 * What a second screen on the same machine is told, and what it may show of it: a figure only while it is told anew, by one
 * page, of a reading that may be believed.
 */
import type { Trust } from '../../widgets/trust.ts';
import type { DisplayUnits } from '../../words/format.ts';

export const FAR_CHANNEL = 'steadybar-second-screen';
/** Told this often at most; a moment comes thirty times a second. */
export const FAR_EVERY_MS = 200;
/** Not heard for so long: there is no data. */
export const FAR_SILENT_MS = 1500;

export interface FarSaid {
  readonly v: 1;
  /** Which page says it: of two at once neither is shown. */
  readonly from: string;
  /** When it was sent, UTC ms by the machine's clock, which both have. */
  readonly utcMs: number;
  readonly trust: Trust;
  readonly bar: number | null;
  readonly overBar: number | null;
  readonly units: DisplayUnits;
  readonly practice: boolean;
}

export type FarShown =
  | { readonly s: 'figure'; readonly bar: number; readonly units: DisplayUnits }
  | { readonly s: 'over'; readonly bar: number; readonly units: DisplayUnits }
  | { readonly s: 'no-data' | 'no-reading' | 'two-pages' };

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null;

/** A message of another version, or of another program's page, says nothing. */
export function farSaid(message: unknown): FarSaid | null {
  if (!isObject(message) || message.v !== 1) return null;
  const { from, utcMs, trust, bar, overBar, units, practice } = message;
  const isBar = (n: unknown): boolean => n === null || (typeof n === 'number' && Number.isFinite(n));
  if (typeof from !== 'string' || typeof utcMs !== 'number' || typeof trust !== 'string') return null;
  if (!isBar(bar) || !isBar(overBar) || !isObject(units) || typeof practice !== 'boolean') return null;
  return message as unknown as FarSaid;
}

/** Keeps what was heard last of each page, and tells what may be shown of it. */
export class FarEar {
  private readonly heard = new Map<string, { readonly said: FarSaid; readonly atMs: number }>();

  /** @param nowMs a clock that only goes forward */
  hear(said: FarSaid, nowMs: number): void {
    this.heard.set(said.from, { said, atMs: nowMs });
  }

  /** @param utcMs the machine's clock: what waited in a frozen page is as old as it is */
  shown(nowMs: number, utcMs: number): FarShown {
    for (const [from, { said, atMs }] of this.heard)
      if (nowMs - atMs > FAR_SILENT_MS || Math.abs(utcMs - said.utcMs) > FAR_SILENT_MS)
        this.heard.delete(from);
    const [only, ...others] = this.heard.values();
    if (only === undefined) return { s: 'no-data' };
    if (others.length > 0) return { s: 'two-pages' };
    const { trust, bar, overBar, units } = only.said;
    if (trust === 'good' && bar !== null) return { s: 'figure', bar, units };
    if (trust === 'over' && overBar !== null) return { s: 'over', bar: overBar, units };
    return { s: 'no-reading' };
  }

  /** Some of what is shown is of a practice. */
  get practice(): boolean {
    return [...this.heard.values()].some((h) => h.said.practice);
  }
}
