/** Every exception that a sealed record knows of, in plain words, the weightiest first. Never fewer than it holds. */

import type { JobBundle } from '../../job/bundle.ts';
import { isPressureRole, isSecondPressure } from '../../job/pressure-roles.ts';
import type { ChannelSetup, Setup } from '../../job/setup.ts';
import type { Manifest } from '../../record/manifest.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { Catalogue } from '../../words/catalogue.ts';
import { cupAsks, lastCup, OUTSIDE_S, packerPeak, supplyOf, wentOn } from '../account.ts';
import { airTestTold } from '../air-test-told.ts';
import { checklistOf } from '../checklist-told.ts';
import { floorOfRecord, holdsOf } from '../numbers.ts';

export interface Seen {
  readonly manifest: Manifest;
  readonly bundle: JobBundle | null;
  /** In force at the end. */
  readonly setup: Setup | null;
  readonly peakBar: number | null;
  readonly firstUs: number;
  /** In the record's language. */
  readonly words: Catalogue;
}

type Of<K extends WatchEvent['e']> = Extract<WatchEvent, { e: K }>;

const RANK = { urgent: 0, high: 1, low: 2 } as const;

export function exceptionsOf(seen: Seen): readonly string[] {
  return [
    ...ofOutcome(seen),
    ...ofAirTest(seen),
    ...ofRecord(seen),
    ...ofAlarms(seen),
    ...ofGaps(seen),
    ...ofPressure(seen),
    ...ofSupply(seen),
    ...ofSensors(seen),
    ...ofCure(seen),
    ...ofPeople(seen),
    ...ofChecklist(seen),
  ];
}

/** Whether an event of the kind may be an exception; the others are the course of the work, or told by the rows. */
const MAY_BE = {
  stage: true,
  alarm: true,
  gap: true,
  beside: true,
  'setup-refused': true,
  zero: true,
  gauge: true,
  'warm-check': true,
  segment: true,
  question: true,
  rebound: true,
  supply: true,
  'air-test': true,
  mixed: true,
  witness: true,
  cup: true,
  sample: true,
  override: true,
  check: true,
  note: true,
  'acknowledge-refused': false,
  cue: false,
  'too-fast': false,
  limits: false,
  leak: false,
  hold: false,
  knee: false,
  lift: false,
  'cure-start': false,
  'cure-met': false,
  'outlet-stood': false,
  operator: false,
  device: false,
  store: false,
  end: false,
} as const satisfies Record<WatchEvent['e'], boolean>;
type Exceptional = {
  [E in WatchEvent['e']]: (typeof MAY_BE)[E] extends true ? E : never;
}[WatchEvent['e']];

const events = <K extends Exceptional>(seen: Seen, kind: K): Of<K>[] =>
  seen.manifest.events.filter((e): e is Of<K> => e.e === kind);

const clock = (seen: Seen, us: number): string => seen.words.format.stopwatch((us - seen.firstUs) / 1e6);

/** What speaks against the repair itself, before all that merely is not known of it. */
function ofOutcome(seen: Seen): string[] {
  const { setup } = seen;
  const peakBar = packerPeak(seen.manifest.events, seen.peakBar);
  const { EXCEPTION: X } = seen.words.certificate;
  const limits = setup?.limits ?? null;
  const out: string[] = [];
  if (limits !== null && peakBar !== null && peakBar > limits.ratedBar) out.push(X.overRated(peakBar));
  const holds = holdsOf(seen.manifest.events);
  if (holds.length === 0) out.push(X.noHold);
  const outsideS = holds.reduce((t, h) => t + (h.tUs - h.fromUs) / 1e6 - h.minutesInBand * 60, 0);
  if (outsideS > OUTSIDE_S) out.push(X.notHeld(outsideS));
  if (events(seen, 'question').some((q) => q.answer === 'loss')) out.push(X.loss);
  if (events(seen, 'witness').at(-1)?.hard === false) out.push(X.witnessSoft);
  if (events(seen, 'rebound').some((r) => r.what === 'came-back')) out.push(X.reboundBack);
  if (limits === null) out.push(X.noLimit);
  else {
    if (limits.noMargin !== null) out.push(X.noMargin(limits.noMargin.reason));
    if (peakBar !== null && peakBar <= limits.ratedBar && peakBar > limits.ceilingBar)
      out.push(X.overCeiling(peakBar));
  }
  return out;
}

/** The last attempt counts; what came of the others is told with it. */
function ofAirTest({ manifest, setup, words }: Seen): string[] {
  const { EXCEPTION: X } = words.certificate;
  const { AIR_REASON, airTestEvent } = words.airTest;
  const { planned, last, earlier } = airTestTold(manifest.events, setup);
  const out: string[] = [];
  if (last === null) {
    if (planned) out.push(X.airTestNone);
  } else if (last.verdict === 'failed') out.push(X.airTestFailed);
  else if (last.verdict !== 'passed' && last.reason !== null)
    out.push(X.airTestUnsaid(AIR_REASON[last.reason]));
  return [...out, ...earlier.map((e) => X.airTestEarlier(airTestEvent(e)))];
}

function ofRecord(seen: Seen): string[] {
  const { manifest, bundle } = seen;
  const { EXCEPTION: X } = seen.words.certificate;
  const out: string[] = [];
  if (manifest.end === 'interrupted') out.push(X.interrupted);
  if (manifest.resumedUs.length > 0) {
    const missing = events(seen, 'gap').filter((g) => g.reason === 'resumed');
    out.push(
      X.resumed(
        manifest.resumedUs.length,
        missing.reduce((t, g) => t + (g.toUs - g.fromUs) / 1e6, 0),
      ),
    );
  }
  for (const is of new Set(manifest.maps?.map((map) => map.is))) out.push(X.readBy[is]);
  for (const { deviceId, map } of manifest.beside ?? [])
    out.push(map === null ? X.besideDevice(deviceId) : X.besideBy[map.is](deviceId));
  const damaged = manifest.pages.damage.reduce((t, d) => t + d.pages, 0);
  if (damaged > 0) out.push(X.damage(damaged));
  if (bundle === null) out.push(X.noJob);
  else if (bundle.packer === null) out.push(X.noPacker);
  if (manifest.signer.previous?.reason === 'lost') out.push(X.keyLost);
  return out;
}

/** What the proof of the supply showed, and was gone on against. */
function ofSupply(seen: Seen): string[] {
  const { EXCEPTION: X } = seen.words.certificate;
  const supply = supplyOf(events(seen, 'supply'));
  if (supply === null) return [];
  const out: string[] = [];
  if (wentOn(supply, seen.manifest.events)) out.push(X.supplyWentOn);
  if (supply.voidBy !== null) out.push(X.supplyVoid(seen.words.supply.SUPPLY_REASON[supply.voidBy]));
  return out;
}

function ofPressure(seen: Seen): string[] {
  const { setup } = seen;
  const { EXCEPTION: X } = seen.words.certificate;
  const limits = setup?.limits ?? null;
  const out: string[] = [];
  if (limits !== null) {
    const floor = floorOfRecord(seen.manifest.events, setup);
    if (floor.seen) out.push(X.floorSeen);
    if (floor.bar === null) {
      out.push(X.noFloor);
      if (limits.headBar === null) out.push(X.noWater);
      if (limits.freeInflationBar === null) out.push(X.noFree);
    }
  }
  if (setup !== null && (setup.tap === 'supply' || setup.tap === 'unknown')) out.push(X.tap);
  else if (setup?.tap === 'hose') out.push(X.tapHose);
  if (setup?.sharedLine === true) out.push(X.sharedLine);
  if (setup !== null && setup.line !== 'closed')
    out.push(setup.line === 'unknown' ? X.lineUnknown : X.lineSupplied);
  const holds = holdsOf(seen.manifest.events);
  const inHold = (us: number): boolean => holds.some((h) => us > h.fromUs && us < h.tUs);
  const topUps = events(seen, 'segment').filter(
    (e) => e.what === 'closed' && (e.why === 'top-up' || e.why === 'flow') && inHold(e.tUs),
  );
  if (topUps.length > 0) out.push(X.topUps(topUps.length));
  const stages = events(seen, 'stage');
  const attempts = Math.max(1, ...stages.map((s) => s.attempt));
  if (attempts > 1) out.push(X.attempts(attempts));
  if (stages.some((s) => s.stage === 'abandoned')) out.push(X.abandoned);
  if (stages.some((s) => s.by === 'data')) out.push(X.byData);
  const rebounds = events(seen, 'rebound');
  if (!rebounds.some((r) => r.what === 'stayed')) out.push(X.reboundNone);
  return out;
}

/** One line an alarm: how often, and when first. */
function ofAlarms(seen: Seen): string[] {
  const { EXCEPTION: X } = seen.words.certificate;
  const { alarmTitle } = seen.words.alarmTitles;
  const found = new Map<string, { first: Of<'alarm'>; n: number }>();
  for (const e of events(seen, 'alarm')) {
    if (e.why !== 'condition' || e.to !== 'unacknowledged') continue;
    const title = alarmTitle(e);
    const known = found.get(title);
    if (known === undefined) found.set(title, { first: e, n: 1 });
    else found.set(title, { first: worse(known.first, e), n: known.n + 1 });
  }
  return [...found.values()]
    .sort((a, b) => RANK[a.first.priority] - RANK[b.first.priority] || a.first.tUs - b.first.tUs)
    .map(({ first, n }) => X.alarm(first.priority, alarmTitle(first), n, clock(seen, first.tUs)));
}

const worse = (a: Of<'alarm'>, b: Of<'alarm'>): Of<'alarm'> =>
  RANK[b.priority] < RANK[a.priority] ? { ...a, priority: b.priority } : a;

function ofGaps(seen: Seen): string[] {
  const { EXCEPTION: X } = seen.words.certificate;
  const { GAP } = seen.words.events;
  const found = new Map<string, { n: number; s: number }>();
  for (const g of events(seen, 'gap')) {
    if (g.reason === 'resumed') continue;
    const known = found.get(g.reason) ?? { n: 0, s: 0 };
    found.set(g.reason, { n: known.n + 1, s: known.s + (g.toUs - g.fromUs) / 1e6 });
  }
  return [
    ...[...found].map(([reason, { n, s }]) => X.gap(GAP[reason as keyof typeof GAP] ?? reason, n, s)),
    ...ofBeside(seen),
  ];
}

/** What the second adapter did not read, though the run went on. */
function ofBeside(seen: Seen): string[] {
  const { EXCEPTION: X } = seen.words.certificate;
  const told = events(seen, 'beside');
  const backs = told.filter((e) => e.what === 'back');
  const out: string[] = [];
  const s = backs.reduce((sum, e) => sum + (e.seconds ?? 0), 0);
  if (backs.length > 0) out.push(X.besideGap(backs.length, s));
  const last = told.findLast((e) => e.what !== 'greeted');
  if (last !== undefined && last.what !== 'back') out.push(X.besideGone(clock(seen, last.tUs)));
  return out;
}

function ofSensors(seen: Seen): string[] {
  const { setup } = seen;
  const { EXCEPTION: X } = seen.words.certificate;
  const { PLACE } = seen.words.terms;
  const out: string[] = [];
  if (!events(seen, 'zero').some((z) => z.taken)) out.push(X.noZero);
  const hasSecond = (setup?.channels ?? []).some((c) => isSecondPressure(c.role));
  if (hasSecond && !events(seen, 'zero').some((z) => z.second?.taken === true)) out.push(X.noSecondZero);
  // Typed beside no reading, nothing was compared.
  const gauges = events(seen, 'gauge').filter((g) => g.agrees !== null);
  if (gauges.length === 0) out.push(X.noGauge);
  for (const g of gauges) if (g.agrees === false) out.push(X.gaugeDiffers(g.gaugeBar, g.readingBar));
  const channels = (setup?.channels ?? []).filter((c) => isPressureRole(c.role) || c.role === 'temperature');
  const probes = channels.filter((c) => c.role === 'temperature');
  if (probes.length === 0) out.push(X.noProbe);
  else if (!probes.some((c) => c.place === 'sleeve')) out.push(X.noSleeveProbe);
  const checks = events(seen, 'warm-check');
  for (const { place } of probes) {
    const mine = checks.filter((c) => c.place === place);
    const name = place === null ? X.unnamedPlace : PLACE[place];
    if (mine.length === 0) out.push(X.probeUnchecked(name));
    else if (mine.at(-1)!.agrees !== true) out.push(X.probeDiffers(name));
  }
  const named = ({ role, place }: ChannelSetup): string => {
    if (isSecondPressure(role)) return X.secondPressure;
    return role === 'pressure' ? X.pressureSensor : X.probe(place === null ? X.unnamedPlace : PLACE[place]);
  };
  const bare = channels.filter((c) => c.calibration === null).map(named);
  if (bare.length > 0) out.push(X.uncalibrated(bare.join(', ')));
  return out;
}

function ofCure(seen: Seen): string[] {
  const { bundle, setup } = seen;
  const { EXCEPTION: X } = seen.words.certificate;
  const out: string[] = [];
  if (setup?.resin?.curedBy === 'light') out.push(X.lightCured);
  else if (setup?.heating === 'unknown' && setup.resin !== null) out.push(X.heatingUnknown);
  if (events(seen, 'mixed').length === 0) out.push(X.noMixed);
  const cup = lastCup(seen.manifest.events);
  if (cup !== null && cupAsks(cup)) out.push(X.cup(seen.words.cup.cupText(cup)));
  const resin = bundle?.job.resin;
  if (resin !== undefined && (resin.resinBatch === '' || resin.hardenerBatch === '')) out.push(X.noBatch);
  for (const s of events(seen, 'sample')) out.push(X.cup(seen.words.events.eventText(s)));
  const witness = events(seen, 'witness').at(-1);
  if (witness === undefined) out.push(X.witnessNone);
  else if (!witness.atPipeTemperature) out.push(X.witnessWarm);
  return out;
}

function ofPeople(seen: Seen): string[] {
  const { EXCEPTION: X } = seen.words.certificate;
  const { overrideText } = seen.words.overrides;
  const out = events(seen, 'override').map((o) => X.override(overrideText(o.what), o.reason));
  if (events(seen, 'setup-refused').length > 0) out.push(X.setupRefused);
  for (const n of events(seen, 'note')) out.push(X.note(clock(seen, n.tUs), n.text));
  return out;
}

/** Items gone on without, then those that nobody answered: what may hurt somebody first. */
function ofChecklist({ manifest, bundle, words }: Seen): string[] {
  const { EXCEPTION: X } = words.certificate;
  const { itemName } = words.checks;
  const lines = checklistOf(bundle, manifest.events, manifest.openedUtcMs);
  const passed = lines.flatMap(({ id, text, answer }) =>
    answer?.how === 'passed' ? [X.checkPassed(itemName(id, text), answer.text, answer.by)] : [],
  );
  const open = (safety: boolean): string =>
    lines
      .filter((l) => l.answer === null && l.safety === safety)
      .map((l) => itemName(l.id, l.text))
      .join('; ');
  const [safety, others] = [open(true), open(false)];
  return [
    ...passed,
    ...(safety === '' ? [] : [X.safetyOpen(safety)]),
    ...(others === '' ? [] : [X.unticked(others)]),
  ];
}
