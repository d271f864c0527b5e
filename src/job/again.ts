import type { CheckAnswer } from './check-answers.ts';
import type { KeptChecklist } from './checklist-document.ts';
import type { JobDocument } from './job-document.ts';

/** What is said anew when a repair is done once more: all of it may differ though nothing else does. */
export interface Anew {
  /** Date of the new repair, ISO. */
  readonly date: string;
  readonly title: string;
  readonly chainageM: number | null;
  readonly lengthMm: number | null;
  readonly resinBatch: string;
  readonly hardenerBatch: string;
  /** The packer was looked at since it came out: an answer, where the list has that item. null: it was not. */
  readonly inspected: CheckAnswer | null;
  /** The list in force now. */
  readonly checklist: KeptChecklist;
}

/**
 * The same repair at another position: client, line, packer, resin, sensors and device as they were. What belonged to the one
 * before is not taken over: its position, batches, temperature at mixing, what was seen on the camera, what was looked at, and
 * a reason for working at the rated pressure.
 */
export function sameAgain(job: JobDocument, anew: Anew): JobDocument {
  return {
    ...job,
    date: anew.date,
    title: anew.title,
    // The client's order is that of the day; another day has its own.
    reference: job.date === anew.date ? job.reference : '',
    defect: {
      ...job.defect,
      chainageM: anew.chainageM,
      lengthMm: anew.lengthMm,
      infiltration: 'not-looked',
    },
    resin: {
      ...job.resin,
      resinBatch: anew.resinBatch,
      hardenerBatch: anew.hardenerBatch,
      mixC: null,
    },
    pressures: { ...job.pressures, noMarginReason: null },
    checklist: anew.checklist,
    answers: anew.checklist.items.some((i) => i.id === anew.inspected?.item) ? [anew.inspected!] : [],
    cautions: [],
    notes: '',
  };
}

/** The title of the next one: 'Crack' makes 'Crack (2)', and that makes 'Crack (3)'. */
export function nextTitle(title: string, taken: readonly string[]): string {
  const counted = /^(.*?) \((\d{1,4})\)$/.exec(title);
  const base = counted?.[1] ?? title;
  for (let n = Number(counted?.[2] ?? 1) + 1; ; n++) {
    const next = ` (${n})`;
    const whole = `${base.slice(0, 120 - next.length)}${next}`;
    if (!taken.includes(whole)) return whole;
  }
}

/**
 * A blank sheet on the device, its sensors, hose and line of the last one: what stays in the van. What they are is shown on the
 * sheet like any entry; packer, pipe and resin are asked.
 */
export function withDeviceOf(blank: JobDocument, last: JobDocument): JobDocument {
  const { device, tap, line, hose, air, crew } = last;
  return {
    ...blank,
    device,
    tap,
    line,
    hose,
    crew,
    // A weather of another day is none of today's; the height of the place may be another's too.
    air: air.source === 'altitude' ? air : blank.air,
  };
}
