import { PATTERNS } from '../../src/app/patterns.ts';
import type { Priority } from '../../src/watch/codes.ts';
import { PRIORITIES } from '../../src/watch/codes.ts';
import type { Noted, Sight } from './eyes.ts';

/** What must be seen and heard of a fault. */
export interface Warned {
  /** One of these is shown: 'alarm-CODE' or a mark. */
  readonly shows: readonly string[];
  /** At least this priority is shown and sounded; null: it makes no sound. */
  readonly priority: Priority | null;
  readonly withinMs: number;
  /** The text of what is shown has this in it. */
  readonly says?: string;
  /** Where the sound may come later than what is shown, ms. */
  readonly soundWithinMs?: number;
  /** These must not be shown beside it, for so long after the fault. */
  readonly never?: { readonly shows: readonly string[]; readonly forMs: number };
}

/** Nothing is to be shown or sounded beyond these: an alarm that cries here teaches a crew not to listen. */
export interface Calm {
  readonly allows: readonly string[] | typeof ANY;
  /** So long it is looked at. */
  readonly forMs: number;
}

/** Nothing is asked: what the device sends fits a sound packer, and nobody can know better. */
export const ANY = 'any';

export type Expected = Warned | Calm;

export const isCalm = (e: Expected): e is Calm => 'allows' in e;

/** What was shown or sounded first, after how long. */
export interface Shown {
  readonly what: string;
  readonly priority: string;
  readonly afterMs: number;
  readonly text: string;
}

export interface Sounded {
  readonly sound: string;
  readonly afterMs: number;
}

export interface Witnessed {
  readonly shown: readonly Shown[];
  readonly sounded: readonly Sounded[];
}

/** A tone is heard this much later than its alarm is shown, at most: the next turn of the page and the driver's queue, ms. */
const SOUND_AFTER_MS = 500;

/** The sound that begins with this pitch; that of a lost reading is the urgent one, falling. */
function soundOf(hz: number): string | null {
  for (const [sound, { pulses }] of Object.entries(PATTERNS))
    if (Math.abs((pulses[0]?.hz ?? 0) - hz) < 0.5) return sound === 'lost' ? 'urgent' : sound;
  return null;
}

/** The rest of an urgent pattern begins with other pitches; repeats are left out. */
function sounds(noted: Noted, fromMs: number): Sounded[] {
  const first = new Map<string, number>();
  for (const { tMs, hz } of noted.tones) {
    const sound = soundOf(hz);
    if (sound !== null && !first.has(sound)) first.set(sound, Math.round(tMs - fromMs));
  }
  return [...first].map(([sound, afterMs]) => ({ sound, afterMs }));
}

/** What the pressure is shown as while it is not a good reading. */
const doubt = (s: Sight): Sight => (s.what === 'pressure' ? { ...s, what: `reading-${s.state}` } : s);

function isRaised(s: Sight): boolean {
  if (s.what.startsWith('alarm-')) return s.state === 'unacknowledged';
  return s.state !== 'gone' && s.what !== 'reading-good';
}

/** What was noted, as times after the fault; an alarm counts when it is raised, each one once, and again at a higher priority. */
export function witnessed(noted: Noted, fromMs: number): Witnessed {
  const shown: Shown[] = [];
  for (const s of noted.sights.map(doubt)) {
    if (
      !isRaised(s) ||
      shown.some((x) => x.what === s.what && x.priority === s.priority && x.text === s.text)
    )
      continue;
    shown.push({
      what: s.what,
      priority: s.priority,
      afterMs: Math.round(s.tMs - fromMs),
      text: s.text,
    });
  }
  return { shown, sounded: sounds(noted, fromMs) };
}

const rank = (p: string): number => {
  const at = PRIORITIES.indexOf(p as Priority);
  return at < 0 ? PRIORITIES.length : at;
};

/** The one that the expectation waits for; undefined: it has not come. A mark has no priority of its own. */
export function answer(e: Warned, { shown }: Witnessed): Shown | undefined {
  return shown.find(
    (s) =>
      e.shows.includes(s.what) &&
      (e.says === undefined || s.text.includes(e.says)) &&
      (e.priority === null || s.priority === '' || rank(s.priority) <= rank(e.priority)),
  );
}

/** The first sound that is at least as pressing. */
export function heard(e: Warned, { sounded }: Witnessed): Sounded | undefined {
  return sounded.find((s) => e.priority !== null && rank(s.sound) <= rank(e.priority));
}

/** Is all there that is waited for? Then nobody needs to look on. */
export function isComplete(e: Expected, w: Witnessed): boolean {
  if (isCalm(e)) return false;
  return answer(e, w) !== undefined && (e.priority === null || heard(e, w) !== undefined);
}

/** What does not meet the expectation, one phrase each; none: it is met. */
export function complaints(e: Expected, w: Witnessed): string[] {
  return isCalm(e) ? cries(e, w) : misses(e, w);
}

/** A reading that is shown as doubtful is no cry. */
function cries({ allows }: Calm, w: Witnessed): string[] {
  if (allows === ANY) return [];
  const shown = w.shown.filter((s) => !s.what.startsWith('reading-') && !allows.includes(s.what));
  return [...new Set(shown.map((s) => `shows ${s.what}`))];
}

function misses(e: Warned, w: Witnessed): string[] {
  const out: string[] = [];
  const found = answer(e, w);
  if (found === undefined) {
    const instead = [...new Set(w.shown.map((s) => s.what))].join(', ');
    out.push(`no ${e.shows.join(' or ')}${instead === '' ? '' : ` (but ${instead})`}`);
  } else if (found.afterMs > e.withinMs) out.push(`late: ${found.afterMs} ms of ${e.withinMs}`);
  if (e.priority !== null) {
    const sound = heard(e, w);
    const mostMs = Math.max(found?.afterMs ?? 0, e.soundWithinMs ?? e.withinMs) + SOUND_AFTER_MS;
    if (sound === undefined) out.push('no sound');
    else if (sound.afterMs > mostMs) out.push(`sound late: ${sound.afterMs} ms`);
  }
  for (const what of e.never?.shows ?? [])
    if (w.shown.some((s) => s.what === what)) out.push(`shows ${what}`);
  return out;
}
