import { sleep } from '../e2e/stage.ts';
import type { Expected } from './expect.ts';
import { nowMs, type Site } from './site.ts';
import type { WalkStage } from './walk.ts';

/** A fault, how it is made on the real stack, and what must come of it at each stage. */
export interface Fault {
  readonly name: string;
  /** What happens, in one line. */
  readonly title: string;
  /** How it is made. */
  readonly how: string;
  /** Stages that it makes sense in; all where nothing is said. */
  readonly stages?: readonly WalkStage[];
  /** Done once, at the begin of each run. */
  before?(site: Site): Promise<void>;
  /** Makes it. @returns UTC in ms from which it is there, where that is not the call itself */
  inject(site: Site, stage: WalkStage): Promise<number | undefined>;
  /** Takes it back, as far as a crew would: plugs in, loads the page again, goes on with the run. */
  clear(site: Site, stage: WalkStage): Promise<void>;
  expects(stage: WalkStage): Expected;
  /** Events and gaps that the record must name, as 'gap REASON' or 'device WHAT'. */
  readonly recorded?: readonly string[];
}

/** What the page, the driver and a busy machine may add to a delay of docs/alarms.md, ms. */
export const ADDED_MS = 700;

/** An operation of the device that must work. */
export async function op(site: Pick<Site, 'device'>, line: string): Promise<void> {
  const answer = await site.device.op(line);
  if (!answer.startsWith('ok')) throw new Error(`${line}: ${answer}`);
}

export const isUp = (stage: WalkStage): boolean =>
  stage === 'seat' || stage === 'inflate' || stage === 'hold';

/** A line that has just been shut off equalises with the packer: no fall is told apart from that before so long, ms. */
const EQUALISED_MS = 6000;

/** Waits until a hold is old enough for a fall to be seen. @returns UTC from which the fault is, ms */
export async function settled(site: Site, stage: WalkStage): Promise<number> {
  if (stage === 'hold') await sleep(EQUALISED_MS);
  await site.mark();
  return nowMs();
}
