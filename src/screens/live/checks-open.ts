import type { Moment } from '../../job/checklist.ts';
import type { KeptItem } from '../../job/checklist-document.ts';
import type { Stage } from '../../watch/codes.ts';

/** What of the job's checklist a moment of the run asks for. */
export interface ChecksOpen {
  /** Items that nobody has answered, in the order of the work. */
  readonly open: readonly KeptItem[];
}
export const NO_CHECKS: ChecksOpen = { open: [] };

const BEFORE_AIR: readonly Moment[] = ['arrival', 'mixing', 'air'];
const UP: readonly Stage[] = ['seat', 'inflate', 'hold'];

/** Moments whose turn it is. What the air goes in by is asked when the resin is mixed, or none is. */
export function momentsNow(stage: Stage, mixingWaits: boolean): readonly Moment[] {
  switch (stage) {
    case 'prepare':
      return mixingWaits ? ['arrival', 'mixing'] : BEFORE_AIR;
    case 'abandoned':
      return BEFORE_AIR;
    case 'hold':
      return ['let-down'];
    case 'done':
    case 'air-test':
      return ['after'];
    case 'seat':
    case 'inflate':
    case 'let-down':
      return [];
    default:
      return stage satisfies never;
  }
}

/** Items whose turn it is and that wait. */
export const dueItems = ({ open }: ChecksOpen, stage: Stage, mixingWaits: boolean): readonly KeptItem[] =>
  open.filter((i) => momentsNow(stage, mixingWaits).includes(i.at));

/** Safety items that are to be answered before a step. */
export function safetyBefore({ open }: ChecksOpen, from: Stage, to: Stage): readonly KeptItem[] {
  const begins = from === 'prepare' || from === 'abandoned';
  const moments: readonly Moment[] =
    begins && UP.includes(to)
      ? BEFORE_AIR
      : from === 'hold' && (to === 'let-down' || to === 'done')
        ? ['let-down']
        : [];
  return open.filter((i) => i.safety && moments.includes(i.at));
}

/** Of the end of the run: what is asked when the packer is out. */
export const safetyAfter = ({ open }: ChecksOpen): readonly KeptItem[] =>
  open.filter((i) => i.safety && i.at === 'after');
