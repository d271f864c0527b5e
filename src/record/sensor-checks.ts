import { isSecondPressure } from '../job/pressure-roles.ts';
import type { SensorCheck } from '../job/sensor-check.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';
import type { WatchEvent } from '../watch/events.ts';

type CheckEvent = Extract<WatchEvent, { e: 'zero' | 'gauge' | 'warm-check' }>;

export const isCheck = (event: WatchEvent): event is CheckEvent =>
  event.e === 'zero' || event.e === 'gauge' || event.e === 'warm-check';

const rounded = (v: number): number => Math.round(v * 1000) / 1000;

/** Another check of the same kind of the same sensor takes the earlier one's place. */
function put(
  checks: SensorCheck[],
  of: ChannelSetup | undefined,
  part: Pick<SensorCheck, 'what' | 'off' | 'agrees'>,
) {
  const serial = of?.sensorSerial;
  if (of === undefined || serial === undefined) return;
  const line: SensorCheck = { ...part, serial, channel: of.index, off: rounded(part.off) };
  const at = checks.findIndex((c) => c.what === part.what && c.serial === serial && c.channel === of.index);
  if (at < 0) checks.push(line);
  else checks[at] = line;
}

/**
 * Takes an event of a run into its list of sensor checks. A channel whose sensor has no document leaves none: there is
 * nothing to hang a history on.
 * @param setup the Setup in force at the event; null before the first
 */
export function takeCheck(checks: SensorCheck[], event: WatchEvent, setup: Setup | null): void {
  if (setup === null || !isCheck(event)) return;
  if (event.e === 'warm-check') {
    const { readingC, agrees } = event;
    if (readingC === null || agrees === null) return;
    const probe = setup.channels.find((c) => c.role === 'temperature' && c.place === event.place);
    put(checks, probe, { what: 'warm', off: readingC - event.thermometerC, agrees });
    return;
  }
  const pressure = setup.channels.find((c) => c.role === 'pressure');
  if (event.e === 'gauge') {
    const { readingBar, agrees } = event;
    if (readingBar !== null && agrees !== null)
      put(checks, pressure, { what: 'gauge', off: readingBar - event.gaugeBar, agrees });
    return;
  }
  const { second } = event;
  if (second !== undefined && (second.taken || second.reason === 'too-far'))
    put(
      checks,
      setup.channels.find((c) => isSecondPressure(c.role)),
      { what: 'zero', off: second.offsetBar, agrees: second.taken },
    );
  // The event tells what was left over: a second zero comes on top of the first.
  const before = checks.find((c) => c.what === 'zero' && c.channel === pressure?.index && c.agrees);
  if (event.taken)
    put(checks, pressure, { what: 'zero', off: (before?.off ?? 0) + event.offsetBar, agrees: true });
  else if (event.reason === 'too-far' && before === undefined)
    put(checks, pressure, { what: 'zero', off: event.offsetBar, agrees: false });
}

/** The list of sensor checks of a whole run, from what its pages hold. Both in time order. */
export function checksOf(
  setups: readonly { readonly tUs: number; readonly setup: Setup }[],
  events: readonly WatchEvent[],
): SensorCheck[] {
  const checks: SensorCheck[] = [];
  for (const event of events) {
    const inForce = setups.findLast((s) => s.tUs <= event.tUs);
    takeCheck(checks, event, inForce?.setup ?? null);
  }
  return checks;
}
