import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame } from '../link/frames.ts';
import { type Greeting, type Identity, refusal } from '../link/greeting.ts';
import { bytesSource } from '../record/byte-source.ts';
import { readRun } from '../record/reader.ts';
import type { RunSummary } from '../record/types.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import type { HostDeps } from './deps.ts';
import { fileOf } from './run-list.ts';
import { createSlices, inSlices } from './slices.ts';

/** The Setup that a run stopped with, and the device that it was for. */
export interface LeftLimits {
  readonly setup: Setup;
  /** null: it never met one. */
  readonly device: Identity | null;
}

/** @returns null where the run's pages hold no Setup with limits, or cannot be read */
async function limitsOf(
  { files, timers }: Pick<HostDeps, 'files' | 'timers'>,
  runId: string,
): Promise<LeftLimits | null> {
  let setup: Setup | null = null as Setup | null;
  let hello: HelloFrame | null = null as HelloFrame | null;
  let channels: ChannelFrame[] = [];
  const pages = bytesSource(await files.readAll(fileOf(runId)));
  await readRun(
    inSlices(pages, createSlices(timers)),
    {
      entry(entry) {
        if (entry.l === 'setup') setup = entry.setup;
        if (entry.l !== 'frame') return;
        if (entry.frame.t === 'H') {
          hello = entry.frame;
          channels = [];
        } else if (entry.frame.t === 'C') channels.push(entry.frame);
      },
    },
    { chain: false },
  );
  if (setup === null || setup.limits === null) return null;
  return { setup, device: hello === null ? null : { deviceId: hello.deviceId, channels } };
}

/**
 * The limits of what was left open: until its run is gone on with or another job sets its own, whatever is read is guarded by
 * them. Of several the lowest: the packer that hangs on the line may be any of them.
 * @param open runs that nobody records now
 */
export async function leftLimits(
  deps: Pick<HostDeps, 'files' | 'timers'>,
  open: readonly RunSummary[],
): Promise<LeftLimits | null> {
  let lowest: LeftLimits | null = null;
  for (const { runId, practice } of open) {
    // A file that cannot be read is told where its run is resumed; the others are guarded all the same.
    const found = practice ? null : await limitsOf(deps, runId).catch(() => null);
    const bar = (left: LeftLimits | null): number =>
      left?.setup.limits?.ceilingBar ?? Number.POSITIVE_INFINITY;
    if (bar(found) < bar(lowest)) lowest = found;
  }
  return lowest;
}

/**
 * The Setup by which the device that answers is guarded: another one than the run's is read by its own channels. Its number is
 * before any that a job begins with, so that each replaces it.
 */
export const leftSetup = ({ setup, device }: LeftLimits, greeting: Greeting): Setup => ({
  ...setup,
  number: 0,
  channels:
    device !== null && refusal(greeting, device) === null
      ? setup.channels
      : suggestChannels(greeting.channels),
});
