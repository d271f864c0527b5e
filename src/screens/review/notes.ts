import type { Priority } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';

/** What is numbered on the trace and in the list beside it, under the same numbers. */
export interface Note {
  readonly number: number;
  /** Seconds from the first sample. */
  readonly s: number;
  readonly event: WatchEvent;
  readonly priority: Priority | null;
}

/** Of these kinds each event is a note; of alarms those that were raised. Stages stand in the ribbon. */
const NOTED: Readonly<Record<WatchEvent['e'], boolean>> = {
  gap: true,
  beside: false,
  'setup-refused': true,
  gauge: true,
  'warm-check': true,
  'cure-met': true,
  rebound: true,
  supply: true,
  'air-test': true,
  'outlet-stood': false,
  mixed: true,
  cup: true,
  sample: true,
  witness: true,
  override: true,
  check: false,
  note: true,
  store: true,
  question: true,
  stage: false,
  limits: false,
  'acknowledge-refused': false,
  zero: false,
  operator: false,
  device: false,
  end: false,
  alarm: false,
  cue: false,
  'too-fast': false,
  segment: false,
  leak: false,
  hold: false,
  knee: false,
  lift: false,
  'cure-start': false,
};

/** The notes of a run by their event, numbered from 1 in the order of time. */
export function notesOf(events: readonly WatchEvent[], firstUs: number): ReadonlyMap<WatchEvent, Note> {
  const notes = new Map<WatchEvent, Note>();
  for (const event of events) {
    const isAlarm = event.e === 'alarm' && event.why === 'condition' && event.to === 'unacknowledged';
    if (!NOTED[event.e] && !isAlarm) continue;
    const s = Math.max(0, (event.tUs - firstUs) / 1e6);
    const priority = event.e === 'alarm' ? event.priority : null;
    notes.set(event, { number: notes.size + 1, s, event, priority });
  }
  return notes;
}

/** Notes that would lie over each other stand together as one, named by its first and last number. */
export interface NoteGroup {
  readonly notes: readonly Note[];
  /** px from the left edge of the plot. */
  readonly x: number;
}

const RANK: Readonly<Record<Priority, number>> = { urgent: 0, high: 1, low: 2 };

/** The most pressing priority of a group; null: no alarm is in it. */
export function worstOf(notes: readonly Note[]): Priority | null {
  return notes.reduce<Priority | null>(
    (m, n) => (n.priority !== null && (m === null || RANK[n.priority] < RANK[m]) ? n.priority : m),
    null,
  );
}

/**
 * @param notes in the order of time
 * @param width of the plot, px
 * @param apart least distance of two marks, px
 */
export function groupNotes(
  notes: Iterable<Note>,
  view: { readonly fromS: number; readonly toS: number },
  width: number,
  apart: number,
): readonly NoteGroup[] {
  const groups: { notes: Note[]; x: number }[] = [];
  const span = Math.max(1e-6, view.toS - view.fromS);
  for (const note of notes) {
    if (note.s < view.fromS || note.s > view.toS) continue;
    const x = ((note.s - view.fromS) / span) * width;
    const last = groups.at(-1);
    if (last !== undefined && x - last.x < apart) last.notes.push(note);
    else groups.push({ notes: [note], x });
  }
  return groups;
}
