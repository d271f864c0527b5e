import type { DeviceFrame } from '../link/frames.ts';
import type { Greeting } from '../link/greeting.ts';
import type { BesideEntry, FrameEntry, LogEntry } from '../record/log.ts';
import type { Command } from '../watch/inputs.ts';

/**
 * The log before a run is opened. The guard runs from the first valid reading, so when the crew opens the run a
 * while after connecting (or takes zero before it), what the guard already knows goes into the record as well:
 * the newest samples, and every hello, command and notice since connecting. A tablet may stand connected all
 * morning, so the samples are bounded; what is left out is marked by a gap, never just missing.
 */
export interface EarlyLog {
  add(entry: LogEntry): void;
  /** What is kept, in order, with a gap notice wherever something was left out. */
  entries(): readonly LogEntry[];
  readonly samples: number;
}

/** Samples kept: 200 s at 50 Hz. Re-judging them when the run opens must stay far under a tick. */
export const MOST_SAMPLES = 10_000;
/** Other entries kept (a hello a second would fill this in 40 min). */
const MOST_OTHERS = 2500;
/** Commands that are taken from the readings before them keep those readings: s. */
const BEFORE_COMMAND_US = 2_000_000;
const NEEDS_READINGS: Readonly<Record<Command['c'], boolean>> = {
  zero: true,
  gauge: true,
  'warm-check': true,
  'prove-supply': true,
  supply: true,
  'air-test': true,
  acknowledge: false,
  shelve: false,
  unshelve: false,
  stage: false,
  mixed: false,
  'take-device': false,
  vent: false,
  answer: false,
  witness: false,
  override: false,
  check: false,
  operator: false,
  note: false,
};
/** Frames that may go when there are too many: the next one says as much. */
const MAY_GO: Readonly<Record<DeviceFrame['t'], boolean>> = {
  R: true,
  G: true,
  H: false,
  C: false,
  S: false, // counted apart
  E: false,
};

function mayGo(entry: LogEntry): boolean {
  if (entry.l === 'stray' || entry.l === 'beside-stray') return true;
  return (entry.l === 'frame' || entry.l === 'beside') && MAY_GO[entry.frame.t];
}

const isSample = (entry: LogEntry): boolean =>
  (entry.l === 'frame' || entry.l === 'beside') && entry.frame.t === 'S';
const isNeeded = (entry: LogEntry): boolean => entry.l === 'command' && NEEDS_READINGS[entry.command.c];

interface Hole {
  fromUs: number;
  lost: number;
}

export function createEarlyLog(most = MOST_SAMPLES): EarlyLog {
  let kept: LogEntry[] = [];
  let samples = 0;
  let others = 0;

  function prune(): void {
    const neededUs = kept.filter(isNeeded).map((e) => e.tUs);
    const keepsIsland = (tUs: number): boolean =>
      neededUs.some((at) => tUs <= at && tUs >= at - BEFORE_COMMAND_US);
    let drop = samples - Math.floor(most * 0.8);
    let dropOthers = others - Math.floor(MOST_OTHERS * 0.8);
    const next: LogEntry[] = [];
    let hole: Hole | null = null;
    for (const entry of kept) {
      const marker: boolean = entry.l === 'notice' && entry.notice.n === 'gap';
      const sample = isSample(entry);
      if (drop > 0 && marker && entry.l === 'notice' && entry.notice.n === 'gap') {
        // A hole of an earlier round grows instead of standing beside the new one.
        hole ??= { fromUs: entry.notice.fromUs, lost: 0 };
        hole.lost += entry.notice.lost;
        others--;
        continue;
      }
      const goes = sample ? drop > 0 && !keepsIsland(entry.tUs) : dropOthers > 0 && mayGo(entry);
      if (goes) {
        if (sample) {
          drop--;
          samples--;
          // A hole is one of the pressure's readings.
          if (entry.l !== 'frame') continue;
          hole ??= { fromUs: entry.tUs, lost: 0 };
          hole.lost++;
        } else {
          dropOthers--;
          others--;
        }
        continue;
      }
      if (hole !== null) {
        next.push(gapBefore(entry.tUs, hole));
        others++;
        hole = null;
      }
      next.push(entry);
    }
    kept = next;
  }

  return {
    add(entry) {
      kept.push(entry);
      if (isSample(entry)) samples++;
      else others++;
      if (samples > most || others > MOST_OTHERS) prune();
    },
    entries: () => kept,
    get samples() {
      return samples;
    },
  };
}

/** Whatever else was said before the readings of a run begin, these hold on: their time counts. */
const HOLDS_ON: Readonly<Partial<Record<Command['c'], true>>> = { mixed: true, note: true };

/** What was said of the device, or in its place. */
export interface Said extends Omit<Greeting, 'map'> {
  readonly map?: Greeting['map'] | null;
}

/** The entries by which a log gets to know the device. */
export const greetingEntries = (said: Said, tUs: number): FrameEntry[] => entriesOf('frame', said, tUs);

/** The same of a second adapter; null: there is none. */
export const besideEntries = (said: Said | null, tUs: number): BesideEntry[] =>
  said === null ? [] : entriesOf('beside', said, tUs);

const entriesOf = <L extends 'frame' | 'beside'>(l: L, { hello, channels, map }: Said, tUs: number) =>
  [hello, ...channels].map((frame) => ({
    l,
    tUs,
    frame,
    ...(frame.t === 'H' && map != null ? { map } : {}),
  }));

/** The link has no device: what was read before is no part of what comes after. */
const isBreak = (entry: LogEntry): boolean =>
  entry.l === 'notice' && entry.notice.n === 'link' && entry.notice.state !== 'streaming';

/**
 * What a new run takes over: the stretch since the device was last gone, and nothing of it where the line was still that of a
 * run that ended. Readings from before belong to another packer or to nothing; that the device introduced itself and that the
 * resin was mixed is kept.
 * @param greeting the device that answers, where it has not introduced itself again since
 * @param beside the same of the second adapter
 * @param afterUs now on the run clock, where the early log began with another run's end; else null
 */
export function ownEntries(
  entries: readonly LogEntry[],
  greeting: Said | null,
  afterUs: number | null = null,
  beside: Said | null = null,
): LogEntry[] {
  const broken = entries.findLastIndex(isBreak);
  const at = broken < 0 && afterUs !== null ? entries.length : Math.max(0, broken);
  const before = entries.slice(0, at);
  if (!before.some(isSample)) return [...entries];
  const own = entries.slice(at);
  const fromUs = own[0]?.tUs ?? afterUs ?? 0;
  const said = before.filter((e) => e.l === 'command' && HOLDS_ON[e.command.c] === true);
  const knows = (l: 'frame' | 'beside') => own.some((e) => e.l === l && e.frame.t === 'H');
  const known = knows('frame');
  const link = own.length > 0 ? undefined : before.findLast((e) => e.l === 'notice' && e.notice.n === 'link');
  return [
    ...said,
    // Nothing ran in between.
    ...(said.length === 0 ? [] : [gapBefore(fromUs, { fromUs: said[0]!.tUs, lost: 0 })]),
    ...(known || greeting === null ? [] : greetingEntries(greeting, fromUs)),
    ...besideEntries(knows('beside') ? null : beside, fromUs),
    ...(link === undefined ? [] : [{ ...link, tUs: fromUs }]),
    ...own,
  ];
}

function gapBefore(tUs: number, hole: Hole): LogEntry {
  const notice = {
    n: 'gap',
    reason: 'resumed',
    fromUs: hole.fromUs,
    toUs: tUs,
    lost: hole.lost,
  } as const;
  return { l: 'notice', tUs, notice };
}

/** The entry with its time (and the times that it names) moved onto another run clock. */
export function moved(entry: LogEntry, byUs: number): LogEntry {
  if (byUs === 0) return entry;
  const tUs = entry.tUs + byUs;
  if (entry.l === 'notice' && entry.notice.n === 'gap') {
    const { fromUs, toUs } = entry.notice;
    return { l: 'notice', tUs, notice: { ...entry.notice, fromUs: fromUs + byUs, toUs: toUs + byUs } };
  }
  return { ...entry, tUs };
}
