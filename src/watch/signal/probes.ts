import type { Place, Setup } from '../../job/setup.ts';
import type { TemperatureReading } from '../../sensing/reading.ts';
import { FLAG } from '../../sensing/reading.ts';
import type { ProbeNow } from '../cure/coldest.ts';
import {
  createDoubt,
  type DoubtContext,
  type DoubtState,
  doubtOf,
  doubtValue,
  type ProbeDoubt,
} from './probe-doubt.ts';

/** The last that was heard of one temperature channel. Plain data. */
export interface Probe {
  channel: number;
  place: Place | null;
  c: number | null;
  uC: number;
  flags: number;
  /** Arrival of the last usable value, µs; null: never. */
  lastUs: number | null;
  readonly doubt: DoubtState;
}

/** A probe without a usable value for this long is lost, µs. */
export const PROBE_LOST_US = 5e6;

const BAD = FLAG.fault | FLAG.open | FLAG.outOfRange;

/** @param tUs arrival */
export function takeProbes(
  probes: Probe[],
  temps: readonly TemperatureReading[],
  ctx: DoubtContext,
  tUs: number,
): void {
  for (const temp of temps) {
    let probe: Probe | undefined;
    for (const p of probes) if (p.channel === temp.channel) probe = p;
    if (probe === undefined) {
      const doubt = createDoubt();
      probe = { channel: temp.channel, place: null, c: null, uC: 0, flags: 0, lastUs: null, doubt };
      probes.push(probe);
      probes.sort((a, b) => a.channel - b.channel);
    }
    probe.place = temp.place;
    probe.flags = temp.flags;
    // A held value is an old conversion: it keeps what is shown but does not make the probe fresh.
    if ((temp.flags & FLAG.held) !== 0 && probe.lastUs !== null) continue;
    probe.c = temp.c;
    probe.uC = temp.uC;
    doubtValue(probe.doubt, temp, ctx, tUs);
    if (temp.c !== null && (temp.flags & BAD) === 0) probe.lastUs = tUs;
  }
}

/** Slow channels convert every few seconds: held values count as alive three times as long. */
function lostAfterUs(probe: Probe): number {
  return (probe.flags & FLAG.held) !== 0 && (probe.flags & BAD) === 0 ? 3 * PROBE_LOST_US : PROBE_LOST_US;
}

/** It gives a number now, whatever that is worth. */
export function probeSpeaks(probe: Probe, tUs: number): boolean {
  return probe.lastUs !== null && tUs - probe.lastUs <= lostAfterUs(probe);
}

/** It gives a number now that nothing speaks against. */
export function probeFresh(probe: Probe, tUs: number): boolean {
  return probeSpeaks(probe, tUs) && doubtOf(probe.doubt, tUs) === null;
}

/** Why the number of the probe at a place is not believed; null: it is, or there is none. */
export function doubtAt(probes: readonly Probe[], place: Place | null, tUs: number): ProbeDoubt | null {
  for (const probe of probes)
    if (probe.place === place && probeSpeaks(probe, tUs) && !probeFresh(probe, tUs))
      return doubtOf(probe.doubt, tUs);
  return null;
}

/** First place whose probe is lost, or that the job names and was never heard of; null: all are well. */
export function lostPlace(
  probes: readonly Probe[],
  setup: Setup | null,
  firstUs: number | null,
  tUs: number,
): Place | null {
  for (const probe of probes) if (probe.place !== null && !probeFresh(probe, tUs)) return probe.place;
  if (setup === null || firstUs === null || tUs - firstUs <= PROBE_LOST_US) return null;
  for (const channel of setup.channels)
    if (channel.role === 'temperature' && channel.place !== null && !isHeard(probes, channel.index))
      return channel.place;
  return null;
}

function isHeard(probes: readonly Probe[], channel: number): boolean {
  for (const probe of probes) if (probe.channel === channel) return true;
  return false;
}

/** Probes that cure may use now. `warm` names the places that agreed with a thermometer in this run. */
export function cureProbes(probes: readonly Probe[], warm: readonly Place[], tUs: number): ProbeNow[] {
  const out: ProbeNow[] = [];
  for (const p of probes) {
    if (p.place === null || p.c === null || !probeFresh(p, tUs)) continue;
    const checked = (p.flags & FLAG.unchecked) === 0 || warm.includes(p.place);
    out.push({ place: p.place, c: p.c, uC: p.uC, checked });
  }
  return out;
}
