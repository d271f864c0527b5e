import * as z from 'zod/mini';
import { ALL_REASONS, BENCH_ORIGINS, BENCH_POINTS, REFUSED_LINES, verdictOf } from './bench-codes.ts';
import { block, deviceId, int, line, num, rows } from './fields.ts';
import type { StepsTo } from './migrations.ts';

/** What a device was found to be on the bench: its own record, kept beside the documents of its sensors. */

const number = () => z.nullable(num(-1e9, 1e9));

const finding = z
  .strictObject({
    point: z.enum(BENCH_POINTS),
    /** Of the device, where the point is about one. */
    channel: z.nullable(int(0, 6)),
    reason: z.enum(ALL_REASONS),
    /** What they are for each point stands in bench/findings.ts. */
    value: number(),
    against: number(),
    more: number(),
  })
  .check(
    z.refine((f) => verdictOf(f.point, f.reason) !== null, { params: { code: 'pair' }, path: ['reason'] }),
  );
export type BenchFinding = z.infer<typeof finding>;

const refused = z.strictObject({
  reason: z.enum(REFUSED_LINES),
  lines: int(1, 1e9),
  /** The newest of them, printable. */
  example: line(128),
});

export const benchMigrations: StepsTo<BenchDocument['version']> = [];

export const benchSchema = z.strictObject({
  version: z.literal(1),
  deviceId: deviceId(),
  firmware: line(16),
  /** The practice rig: never the record of a real device. */
  practice: z.boolean(),
  origin: z.enum(BENCH_ORIGINS),
  /** When it was kept, by the clock of the computer. */
  utcMs: int(0, 8e15),
  /** How long it was listened to, s. */
  listenedS: num(0, 1e7),
  /** Bits a second; null: the port has no speed. */
  baudRate: z.nullable(int(1, 100_000_000)),
  /** Its own lines, as it said them: who it is and what its channels are. */
  said: rows(line(128), 8),
  refused: rows(refused, REFUSED_LINES.length),
  findings: rows(finding, 30),
  by: line(80),
  notes: block(2000),
});
export type BenchDocument = z.infer<typeof benchSchema>;
