import type { PairPath, SupplyReason, SupplyVerdict } from '../../watch/codes.ts';
import type { Bounded, WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Why a proof of the supply was not begun, was broken off, is asked about or holds no longer. */
const REASON: Record<SupplyReason, string> = {
  'not-in-prepare': 'only before the packer is seated',
  'no-reading': 'there is no reading',
  'not-empty': 'the line was under pressure: let it down first',
  'no-rise': 'no pressure came. Was the supply opened? A sensor at the packer does not see it',
  'slow-rise': 'it rose slower than a hose fills',
  'never-still': 'it did not come to rest: the hose leaks or its end is open',
  'end-leaks': 'it fell when the valve was shut: the end of the hose is open or leaks',
  'packer-on': 'the packer was on the hose',
  stopped: 'stopped by hand',
  turned: 'the regulator was set anew',
  stage: 'the work went on',
  gap: 'readings are missing',
  device: 'another sensor, scale or place',
  'fill-as-fast': 'the packer filled as fast as the hose had: it was on the hose then',
};

/** What a proved supply is good for, and what is done about it. */
const VERDICT: Record<SupplyVerdict, string> = {
  stands: 'Stands at the working pressure',
  'under-working': 'Stands under the working pressure: no fill reaches it',
  'over-working': 'Stands over the working pressure: lower the regulator',
  'over-ceiling': 'OVER THE CEILING: lower the regulator, do not couple',
  creeps: 'Creeps: do not leave it open',
};

/** Words of the task on the live page. */
const TASK = {
  title: 'Prove the supply',
  text: 'Before the hose is on the packer: close its end, then open the supply. It rises and stands at what the regulator lets through.',
  beside:
    'A hose end that is open or leaks, or a packer on the hose, is found out; a valve that stays open is not.',
  shut: 'Hose end is shut',
  uncoupled: 'Uncoupled, the coupling seals',
  closed: 'How is the end of the hose closed?',
  again: 'To prove it again: how is the end of the hose closed?',
  underWay: 'Under way: the order says what comes next.',
  turned: 'Regulator was set anew',
  stoodAt: 'Supply before the fill',
  path: 'Between supply and packer',
  outletTitle: 'Regulator’s outlet',
  outletText: (bar: string) =>
    `It stood at ${bar} before air was let in. If it was turned on purpose since, say so: it is watched from where it stands then.`,
  needsLimits: 'Without limits there is nothing to prove it against: choose a packer.',
  skipped: 'Not proved. The certificate says so.',
  notProved: (why: string) => `Not proved: ${why}.`,
  slowValve: 'No: a hand was at valve or regulator',
  packerOn: 'The packer is on the hose',
};

/** What lies between regulator and packer, as the two pressures show it. */
const PATH: Record<PairPath, string> = {
  flows: 'air flows',
  level: 'both stand at one pressure, no more comes',
  blocked: 'nothing flows: a shut valve, or a kinked hose',
  escapes: 'air flows and the packer does not rise',
};

export function supply(f: Format) {
  const range = ({ value, low, high }: Bounded, u: DisplayUnits): string =>
    `${f.pressure(value, u)} (${f.pressureNumber(low, u)} to ${f.pressureNumber(high, u)})`;

  /** '1.82 bar (1.81 to 1.83). Stands at the working pressure. Creep ...' */
  function supplyText(
    told: {
      readonly lockUpBar: Bounded | null;
      readonly verdict: SupplyVerdict | null;
      readonly creepMbarPerMin: Bounded | null;
      readonly ceilingInS: Bounded | null;
    },
    u: DisplayUnits = METRIC,
  ): string {
    const { lockUpBar, verdict, creepMbarPerMin, ceilingInS } = told;
    const out: string[] = [];
    if (lockUpBar !== null) out.push(`${range(lockUpBar, u)}.`);
    if (verdict !== null) out.push(`${VERDICT[verdict]}.`);
    if (ceilingInS !== null) out.push(`It passes the ceiling in ${f.duration(ceilingInS.value)}.`);
    else if (creepMbarPerMin !== null) out.push(`Creep ${f.pressureRate(creepMbarPerMin.value, u)}.`);
    return out.join(' ');
  }

  function supplyEvent(e: Extract<WatchEvent, { e: 'supply' }>, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return e.end === 'uncoupled'
          ? 'Proof of the supply begun, hose uncoupled'
          : 'Proof of the supply begun, hose end shut';
      case 'refused':
        return `Proof of the supply not begun${why}`;
      case 'asked':
        return `Asked whether the packer is on the hose${why}`;
      case 'locked':
        return `Supply stands at ${supplyText({ ...e, creepMbarPerMin: null }, u)}`;
      case 'proved':
        return `Supply proved: ${supplyText(e, u)}`;
      case 'broken-off':
        return `Proof of the supply broken off${why}`;
      case 'vented':
        return 'Line empty again after the proof of the supply';
      case 'void':
        return `The proof of the supply holds no longer${why}`;
      case 'elsewhere':
        return `The fill stands at ${f.pressure(e.bar, u)}${e.lockUpBar === null ? '' : `, the supply was proved at ${f.pressure(e.lockUpBar.value, u)}`}`;
    }
  }

  return { PAIR_PATH: PATH, SUPPLY: TASK, SUPPLY_REASON: REASON, supplyText, supplyEvent };
}
