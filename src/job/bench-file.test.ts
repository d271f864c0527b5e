import { expect, it } from 'vitest';
import { BENCH_POINTS, BENCH_REASONS, verdictOf } from './bench-codes.ts';
import { BENCH_FILE_MOST, benchFileText, readBenchFile } from './bench-file.ts';
import { benchRecord } from './testing/bench-record.ts';

const codes = (text: string) => {
  const read = readBenchFile(text);
  return read.ok ? [] : read.issues.map((i) => `${i.path}: ${i.code}`);
};
const altered = (more: object) =>
  JSON.stringify({ schema: 'steadybar-bench/1', record: { ...benchRecord(), ...more } });

it('a record goes out and comes in the same, but for its origin: nobody here has seen that device', () => {
  const own = benchRecord();
  expect(readBenchFile(benchFileText(own))).toEqual({ ok: true, value: { ...own, origin: 'file' } });
  const practice = readBenchFile(benchFileText(benchRecord({ practice: true })));
  expect(practice.ok && practice.value.practice).toBe(true);
});

it('a verdict is no part of it: it follows from the reason, and a reason of another point is refused', () => {
  const finding = { ...benchRecord().findings[0]! };
  expect(codes(altered({ findings: [{ ...finding, verdict: 'good' }] }))).toEqual([
    'findings.0: unknown-key',
  ]);
  expect(codes(altered({ findings: [{ ...finding, reason: 'rises' }] }))).toEqual([
    'findings.0.reason: pair',
  ]);
  for (const point of BENCH_POINTS)
    for (const reason of Object.keys(BENCH_REASONS[point])) expect(verdictOf(point, reason)).not.toBeNull();
  expect(verdictOf('lines', 'constructor')).toBeNull();
  expect(verdictOf('lines', 'rises')).toBeNull();
});

it('what is no such file is refused with what is wrong', () => {
  expect(codes('{')).toEqual([': form']);
  expect(codes('[]')).toEqual([': type']);
  expect(codes('{"schema":"steadybar-job/1"}')).toEqual(['schema: version-unknown']);
  expect(codes('{"schema":"steadybar-bench/1","record":null}')).toEqual([': type']);
  expect(codes('x'.repeat(BENCH_FILE_MOST + 1))).toEqual([': too-large']);
  expect(codes(altered({ version: 2 }))).toEqual(['version: version-future']);
  expect(codes(altered({ deviceId: '<b>' }))).toEqual(['deviceId: form']);
  expect(codes(altered({ by: 'a\u202eb' }))).toEqual(['by: characters']);
  expect(codes(altered({ findings: new Array(31).fill(benchRecord().findings[0]) }))).toEqual([
    'findings: too-many',
  ]);
  expect(codes(altered({ practice: undefined }))).toEqual(['practice: missing']);
});
