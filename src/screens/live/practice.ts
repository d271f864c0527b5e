import type { DrillCode, PortChoice, PracticeCode } from '../../engine/messages.ts';
import type { JobBundle } from '../../job/bundle.ts';
import type { ChannelFrame } from '../../link/frames.ts';

/** The practice site of that code at real time; the seed makes each practice the same site. */
export const practiceRig = (scenario: PracticeCode): PortChoice => ({
  kind: 'rig',
  options: { seed: 1, speed: 1, scenario },
});

/** The site of a drill; another seed is another moment at which it goes wrong. */
export const drillRig = (scenario: DrillCode, seed: number): PortChoice => ({
  kind: 'rig',
  options: { seed, speed: 1, scenario },
});

/** The channel behind all others that a practice site with a witness cup has. */
const CUP_CHANNEL = 5;
export const hasCup = (channels: readonly ChannelFrame[]): boolean =>
  channels.some((c) => c.index === CUP_CHANNEL && c.quantity === 'temp');

/**
 * The site that a practice is gone on with at: one with other sensors is another device. What went wrong at it is over:
 * it goes on with all well.
 */
export function siteOf(channels: readonly ChannelFrame[]): PortChoice {
  if (hasCup(channels)) return practiceRig('practice-cup');
  return practiceRig(
    channels.filter((c) => c.quantity === 'press').length > 1 ? 'practice-pair' : 'practice',
  );
}

/** The practice job with what the connected site has besides: a probe in a cup. */
export function withCup(bundle: JobBundle, channels: readonly ChannelFrame[]): JobBundle {
  if (!hasCup(channels)) return bundle;
  const { job } = bundle;
  return {
    ...bundle,
    job: {
      ...job,
      resin: { ...job.resin, cupMassG: 200 },
      device: {
        ...job.device,
        channels: [
          ...job.device.channels.filter((c) => c.channel !== CUP_CHANNEL),
          { channel: CUP_CHANNEL, role: 'temperature', place: 'cup', sensorId: null },
        ],
      },
    },
  };
}
