import { createHash } from 'node:crypto';
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import {
  ALARM_COLUMNS,
  type AlarmRow,
  type Columns,
  HOLD_COLUMNS,
  type HoldRow,
  JOB_COLUMNS,
  type JobRow,
  type Row,
  tableBytes,
} from './fleet.ts';

/**
 * The folder of tables that `extract` makes (docs/fleet.md): Parquet in folders `month=…/by_crew=…`, the form that engines
 * read as a partitioned table. What the folders' names say is besides in every file, so that one taken out alone is whole.
 */

/** What a job without a crew lies under, or without a month: the word that engines take for null in a folder's name. */
const NULL_PART = '__HIVE_DEFAULT_PARTITION__';
/** Letters of a crew's folder: file systems take 255 bytes a name, and some fewer a path. */
const MOST_LETTERS = 80;
const HASH_LETTERS = 12;

const isPlain = (byte: number): boolean =>
  (byte >= 0x30 && byte <= 0x39) || (byte >= 0x61 && byte <= 0x7a) || byte === 0x2d || byte === 0x5f;

/**
 * A crew as the name of its folder. Crews that differ by capitals alone are one: some file systems hold no two such names.
 * Bytes of the UTF-8 text other than a–z, 0–9, - and _ are written %XX; what is too long ends in a hash of the whole.
 */
export function crewFolder(crew: string | null): string {
  if (crew === null) return NULL_PART;
  const text = crew.normalize('NFC').toLowerCase();
  const bytes = Buffer.from(text, 'utf8');
  const written = Array.from(bytes, (b) =>
    isPlain(b) ? String.fromCharCode(b) : `%${b.toString(16).toUpperCase().padStart(2, '0')}`,
  );
  if (written.join('').length <= MOST_LETTERS) return written.join('');
  const hash = createHash('sha256').update(bytes).digest('hex').slice(0, HASH_LETTERS);
  let kept = '';
  for (const letter of written) {
    if (kept.length + letter.length > MOST_LETTERS - HASH_LETTERS - 1) break;
    kept += letter;
  }
  return `${kept}-${hash}`;
}

/** Folder of a job's rows inside each table. Months are UTC. */
export function partitionOf({ begun, crew }: Pick<JobRow, 'begun' | 'crew'>): string {
  const month = begun === null ? NULL_PART : new Date(begun).toISOString().slice(0, 7);
  return path.join(`month=${month}`, `by_crew=${crewFolder(crew)}`);
}

const TABLES = ['jobs', 'holds', 'alarms', 'traces'] as const;

export interface FleetRows {
  readonly job: JobRow;
  readonly holds: readonly HoldRow[];
  readonly alarms: readonly AlarmRow[];
}

export interface FleetFolder {
  /** Writes a job's trace; that of the same run before is replaced. */
  trace(job: JobRow, bytes: Uint8Array): void;
  /** Writes the tables and puts all in the place of what was there. */
  finish(all: readonly FleetRows[]): void;
  /** Takes back what is not finished; nothing where it is. */
  discard(): void;
}

/**
 * Makes the folder of tables beside its place, and puts it there when it is whole: whoever asks meanwhile sees the old one,
 * and a job that is no longer among the files leaves no row behind.
 * @throws the file system's own errors
 */
export function createFleetFolder(to: string): FleetFolder {
  const making = path.join(to, '.making');
  rmSync(making, { recursive: true, force: true });
  for (const table of TABLES) mkdirSync(path.join(making, table), { recursive: true });
  const traces = new Map<string, string>();

  const write = (file: string, bytes: Uint8Array): void => {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  };
  const table = (name: string, columns: Columns, parts: ReadonlyMap<string, readonly Row[]>): void => {
    for (const [part, rows] of parts)
      if (rows.length > 0) write(path.join(making, name, part, 'part-0.parquet'), tableBytes(columns, rows));
    // A question asked of no rows at all is answered by none, not by an error.
    if ([...parts.values()].every((rows) => rows.length === 0))
      write(
        path.join(making, name, `month=${NULL_PART}`, `by_crew=${NULL_PART}`, 'part-0.parquet'),
        tableBytes(columns, []),
      );
  };

  return {
    trace(job, bytes) {
      const file = path.join(making, 'traces', partitionOf(job), `${job.run}.parquet`);
      const before = traces.get(job.run!);
      if (before !== undefined && before !== file) rmSync(before, { force: true });
      traces.set(job.run!, file);
      write(file, bytes);
    },
    finish(all) {
      const parts = new Map<string, FleetRows[]>();
      for (const rows of all) {
        const part = partitionOf(rows.job);
        const mine = parts.get(part);
        if (mine === undefined) parts.set(part, [rows]);
        else mine.push(rows);
      }
      const each = <T extends Row>(rows: (r: FleetRows) => readonly T[]) =>
        new Map([...parts].map(([part, mine]) => [part, mine.flatMap(rows)] as const));
      table(
        'jobs',
        JOB_COLUMNS,
        each((r) => [r.job]),
      );
      table(
        'holds',
        HOLD_COLUMNS,
        each((r) => r.holds),
      );
      table(
        'alarms',
        ALARM_COLUMNS,
        each((r) => r.alarms),
      );
      for (const name of TABLES) {
        const place = path.join(to, name);
        const old = path.join(making, `${name}.old`);
        try {
          renameSync(place, old);
        } catch (cause) {
          if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause;
        }
        renameSync(path.join(making, name), place);
      }
      rmSync(making, { recursive: true, force: true });
    },
    discard: () => rmSync(making, { recursive: true, force: true }),
  };
}
