import type { BenchDocument } from './bench-document.ts';
import { parseDocument } from './documents.ts';
import type { Parsed } from './issues.ts';
import { isBody } from './migrations.ts';

/** A device's bench record as a file: JSON with the name of its form. */
export const BENCH_FILE_SCHEMA = 'steadybar-bench/1';
/** Longest text of such a file that is looked at, UTF-16 units. */
export const BENCH_FILE_MOST = 200_000;

/**
 * Reads a file's text. Never throws. Whatever it says of itself, it is a record out of a file: nobody here has seen
 * that device.
 */
export function readBenchFile(text: string): Parsed<BenchDocument> {
  if (text.length > BENCH_FILE_MOST)
    return { ok: false, issues: [{ path: '', code: 'too-large', limit: BENCH_FILE_MOST }] };
  let value: unknown;
  try {
    value = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch {
    return { ok: false, issues: [{ path: '', code: 'form' }] };
  }
  if (!isBody(value)) return { ok: false, issues: [{ path: '', code: 'type' }] };
  if (value.schema !== BENCH_FILE_SCHEMA)
    return {
      ok: false,
      issues: [{ path: 'schema', code: 'version-unknown', choices: [BENCH_FILE_SCHEMA] }],
    };
  const parsed = parseDocument('bench', value.record);
  return parsed.ok ? { ok: true, value: { ...parsed.value, origin: 'file' } } : parsed;
}

export const benchFileText = (record: BenchDocument): string =>
  `${JSON.stringify({ schema: BENCH_FILE_SCHEMA, record }, null, 2)}\n`;
