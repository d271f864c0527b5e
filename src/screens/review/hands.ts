/** By whose hand each event of a record is: of whoever was named at the computer then. */
import type { WatchEvent } from '../../watch/events.ts';

/** What a hand may do; what the data alone say is nobody's. */
const BY_HAND: Readonly<Record<WatchEvent['e'], boolean>> = {
  stage: true,
  alarm: true,
  zero: true,
  gauge: true,
  'warm-check': true,
  question: true,
  supply: true,
  'air-test': true,
  mixed: true,
  witness: true,
  override: true,
  note: true,
  end: true,
  // carry their own
  check: false,
  operator: false,
  'acknowledge-refused': false,
  cue: false,
  'too-fast': false,
  gap: false,
  beside: false,
  limits: false,
  'setup-refused': false,
  segment: false,
  leak: false,
  hold: false,
  knee: false,
  lift: false,
  'cure-start': false,
  'cure-met': false,
  rebound: false,
  'outlet-stood': false,
  cup: false,
  sample: false,
  device: false,
  store: false,
};

const ALARM_HANDS: readonly string[] = ['acknowledged', 'shelved', 'unshelved'];
const SUPPLY_HANDS: readonly string[] = ['begun', 'refused'];
const AIR_TEST_HANDS: readonly string[] = ['begun', 'refused'];

export function isByHand(e: WatchEvent): boolean {
  if (!BY_HAND[e.e]) return false;
  if (e.e === 'stage') return e.by === 'operator';
  if (e.e === 'alarm') return ALARM_HANDS.includes(e.why);
  if (e.e === 'supply') return SUPPLY_HANDS.includes(e.what);
  if (e.e === 'air-test') return AIR_TEST_HANDS.includes(e.what);
  if (e.e === 'question') return e.answer === 'let-down' || e.answer === 'loss';
  return true;
}

/** The initials of whoever did it, of each event that a named hand did. */
export function handsOf(events: readonly WatchEvent[]): ReadonlyMap<WatchEvent, string> {
  const hands = new Map<WatchEvent, string>();
  let by = '';
  for (const e of events) {
    if (e.e === 'operator') by = e.by;
    else if (by !== '' && isByHand(e)) hands.set(e, by);
  }
  return hands;
}
