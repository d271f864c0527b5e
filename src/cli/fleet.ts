/**
 * Tables over many sealed jobs, for questions that a database answers: a row a job, a row a hold, a row an alarm.
 * All of it is in the signed manifests, but for each hold's bare fall, which is of the signed trace.
 */
import { ByteWriter, ParquetWriter, type SchemaElement } from 'hyparquet-writer';
import { isOverride } from '../evidence/checklist-told.ts';
import { bundleIn } from '../evidence/papers.ts';
import type { PackerDocument } from '../job/packer-document.ts';
import type { Manifest } from '../record/manifest.ts';
import type { Verification } from '../record/verify.ts';
import type { Priority } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import { fallBetween, type PressureTrace } from './hold-falls.ts';

type Cell = string | number | boolean | null;
type Type = 'text' | 'real' | 'whole' | 'flag' | 'utc';

/** Columns of a table, in order. A utc is in ms and becomes a TIMESTAMP. */
export type Columns = Readonly<Record<string, Type>>;
export type Row = Readonly<Record<string, Cell>>;
/** A cell for every column, each of its type. */
export type RowOf<C extends Columns> = { readonly [N in keyof C]: CellOf<C[N]> | null };
type CellOf<T extends Type> = T extends 'text' ? string : T extends 'flag' ? boolean : number;

export const JOB_COLUMNS = {
  run: 'text',
  job: 'text',
  title: 'text',
  site: 'text',
  client: 'text',
  crew: 'text',
  packer: 'text',
  packer_serial: 'text',
  resin: 'text',
  resin_batch: 'text',
  cures_by: 'text',
  heated_by: 'text',
  water_in_line: 'text',
  packers_on_line: 'whole',
  begun: 'utc',
  ended: 'utc',
  seconds: 'real',
  samples: 'whole',
  finish: 'text',
  resumed: 'whole',
  rated_bar: 'real',
  working_bar: 'real',
  hold_minutes: 'real',
  minutes_in_band: 'real',
  lowest_hold_bar: 'real',
  cure_met: 'flag',
  gaps: 'whole',
  alarms: 'whole',
  alarms_urgent: 'whole',
  alarms_high: 'whole',
  alarms_low: 'whole',
  overrides: 'whole',
  additions: 'whole',
  fingerprint: 'text',
  signer: 'text',
  file: 'text',
} as const satisfies Columns;

export const HOLD_COLUMNS = {
  run: 'text',
  begun: 'utc',
  crew: 'text',
  packer: 'text',
  hold: 'whole',
  from_s: 'real',
  to_s: 'real',
  minutes_in_band: 'real',
  lowest_bar: 'real',
  highest_bar: 'real',
  leak: 'text',
  leak_mbar_per_min: 'real',
  leak_low: 'real',
  leak_high: 'real',
  leak_reason: 'text',
  fall_mbar_per_min: 'real',
  samples: 'whole',
} as const satisfies Columns;

export const ALARM_COLUMNS = {
  run: 'text',
  begun: 'utc',
  crew: 'text',
  packer: 'text',
  alarm: 'text',
  priority: 'text',
  occurrence: 'whole',
  at_s: 'real',
  bar: 'real',
} as const satisfies Columns;

export type JobRow = RowOf<typeof JOB_COLUMNS>;
export type HoldRow = RowOf<typeof HOLD_COLUMNS>;
export type AlarmRow = RowOf<typeof ALARM_COLUMNS>;

/** The column of the jobs' table in which a member of the packer's document stands; null: in none. */
const PACKER_COLUMN = {
  name: 'packer',
  serial: 'packer_serial',
  version: null,
  sizes: null,
  plate: null,
  ratings: null,
  plateReadBar: null,
  usable: null,
  freeInflation: null,
  volume: null,
  reliefBar: null,
  retired: null,
  conditions: null,
  earlierCycles: null,
  notes: null,
} as const satisfies { readonly [M in keyof PackerDocument]: keyof JobRow | null };
type PackerCells = Pick<JobRow, NonNullable<(typeof PACKER_COLUMN)[keyof PackerDocument]>>;

/** An empty text says nothing. */
const text = (t: string | undefined): string | null => (t === undefined || t === '' ? null : t);

const packerCells = (packer: PackerDocument | undefined): PackerCells => ({
  packer: text(packer?.name),
  packer_serial: text(packer?.serial),
});

type Of<K extends WatchEvent['e']> = Extract<WatchEvent, { e: K }>;
const only = <K extends WatchEvent['e']>(events: readonly WatchEvent[], kind: K): readonly Of<K>[] =>
  events.filter((e): e is Of<K> => e.e === kind);

/** Seconds from the first sample, as in trace.parquet. */
const secondsIn = ({ pages }: Manifest) => {
  const first = pages.firstSampleUs ?? pages.firstUs ?? 0;
  return (tUs: number): number => (tUs - first) / 1e6;
};

const raised = (events: readonly WatchEvent[]): readonly Of<'alarm'>[] =>
  only(events, 'alarm').filter((a) => a.to === 'unacknowledged' && a.why === 'condition');

export function jobRow(v: Verification, manifest: Manifest, file: string): JobRow {
  const papers = bundleIn(manifest.job);
  const { events } = manifest;
  const holds = only(events, 'hold');
  const at = secondsIn(manifest);
  const limits = manifest.setups.findLast((s) => s.setup.limits !== null)?.setup.limits ?? null;
  const last = manifest.setups.at(-1)?.setup ?? null;
  const alarms = raised(events);
  const ofPriority = (p: Priority): number => alarms.filter((a) => a.priority === p).length;
  const isLight = last?.resin?.curedBy === 'light';
  const lowest = holds.map((h) => h.minBar).filter((b) => b !== null);
  return {
    run: manifest.runId,
    job: manifest.jobId,
    title: text(papers?.job.title),
    site: text(papers?.job.site),
    client: text(papers?.job.client),
    crew: text(papers?.job.crew),
    ...packerCells(papers?.packer?.document),
    resin: text(papers?.resin?.document.name),
    resin_batch: text(papers?.job.resin.resinBatch),
    cures_by: last?.resin?.curedBy ?? null,
    heated_by: last?.heating ?? null,
    water_in_line: last?.wetness ?? null,
    packers_on_line: last === null ? null : last.sharedLine === true ? 2 : 1,
    begun: manifest.openedUtcMs,
    ended: manifest.endedUtcMs,
    seconds: at(manifest.pages.lastUs),
    samples: manifest.pages.samples,
    finish: manifest.end,
    resumed: manifest.resumedUs.length,
    rated_bar: limits?.ratedBar ?? null,
    working_bar: limits?.workingBar ?? null,
    hold_minutes: holds.length === 0 ? null : holds.reduce((t, h) => t + (h.tUs - h.fromUs) / 60e6, 0),
    minutes_in_band: holds.length === 0 ? null : holds.reduce((t, h) => t + h.minutesInBand, 0),
    lowest_hold_bar: lowest.length === 0 ? null : Math.min(...lowest),
    // Of a resin that light cures nothing is judged: neither met nor not met.
    cure_met: isLight ? null : events.some((e) => e.e === 'cure-met'),
    gaps: only(events, 'gap').length,
    alarms: alarms.length,
    alarms_urgent: ofPriority('urgent'),
    alarms_high: ofPriority('high'),
    alarms_low: ofPriority('low'),
    overrides: events.filter(isOverride).length,
    additions: v.additions.length,
    fingerprint: v.fingerprint,
    signer: v.signer,
    file,
  };
}

/** Whose a row is: said in each, so that a question of holds or alarms needs no other table. */
const whose = ({ run, begun, crew, packer }: JobRow) => ({ run, begun, crew, packer });

export function holdRows(job: JobRow, manifest: Manifest, trace: PressureTrace): readonly HoldRow[] {
  const at = secondsIn(manifest);
  return only(manifest.events, 'hold').map((h, i) => {
    const fall = fallBetween(trace, at(h.fromUs), at(h.tUs));
    return {
      ...whose(job),
      hold: i + 1,
      from_s: at(h.fromUs),
      to_s: at(h.tUs),
      minutes_in_band: h.minutesInBand,
      lowest_bar: h.minBar,
      highest_bar: h.maxBar,
      leak: h.leak.verdict,
      leak_mbar_per_min: h.leak.mbarPerMin,
      leak_low: h.leak.low,
      leak_high: h.leak.high,
      leak_reason: h.leak.reason,
      fall_mbar_per_min: fall.mbarPerMin,
      samples: fall.samples,
    };
  });
}

export function alarmRows(job: JobRow, manifest: Manifest): readonly AlarmRow[] {
  const at = secondsIn(manifest);
  return raised(manifest.events).map((a) => ({
    ...whose(job),
    alarm: a.alarm,
    priority: a.priority,
    occurrence: a.occurrence,
    at_s: at(a.tUs),
    bar: a.values.bar ?? null,
  }));
}

const ELEMENT: Readonly<Record<Type, Omit<SchemaElement, 'name'>>> = {
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  real: { type: 'DOUBLE' },
  whole: { type: 'INT64' },
  flag: { type: 'BOOLEAN' },
  utc: { type: 'INT64', converted_type: 'TIMESTAMP_MILLIS' },
};

const stored = (type: Type, v: Cell | undefined): unknown => {
  if (v === null || v === undefined) return null;
  if (type === 'whole') return BigInt(v as number);
  return type === 'utc' ? new Date(v as number) : v;
};

/** A table as Parquet. Every column may hold nulls. */
export function tableBytes(columns: Columns, rows: readonly Row[]): Uint8Array {
  const names = Object.keys(columns);
  const bytes = new ByteWriter();
  const writer = new ParquetWriter({
    writer: bytes,
    schema: [
      { name: 'root', num_children: names.length },
      ...names.map((name) => ({ name, repetition_type: 'OPTIONAL' as const, ...ELEMENT[columns[name]!] })),
    ],
    createdBy: 'steadybar',
  });
  if (rows.length > 0)
    writer.write({
      columnData: names.map((name) => ({ name, data: rows.map((r) => stored(columns[name]!, r[name])) })),
    });
  writer.finish();
  return new Uint8Array(bytes.getBuffer());
}
