import type { JobBundle } from '../job/bundle.ts';
import type { Setup } from '../job/setup.ts';
import type { LogEntry, LogHead } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import { ENGINE } from '../watch/codes.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { captureEntries, deviceOf } from './capture-entries.ts';
import { looksLikeCsv, readCsv, type UnusableCells } from './csv.ts';
import { csvFeed, rateOf } from './csv-entries.ts';
import { fault, InputFault } from './fault.ts';
import { jobSetup, readJob } from './job-setup.ts';
import { judge } from './judge.ts';
import type { ReplayOptions } from './options.ts';
import { outcome } from './outcome.ts';
import type { ReplayResult } from './result.ts';
import { DEFAULT_U_BAR, overruled, plainSetup } from './setup.ts';

/** A trace ready to be judged: the entries hold the setups. */
interface Feed {
  readonly head: LogHead;
  readonly entries: Iterable<LogEntry>;
  /** The newest setup. */
  readonly setup: Setup | null;
  /** No command is in the trace: stages are read off the data. */
  readonly infer: boolean;
  readonly unusable: UnusableCells;
}

/** A log and a capture hold counts: what they mean the engine judges. */
const NOTHING_UNUSABLE: UnusableCells = { cells: 0, listed: [] };

const BARE: LogHead = {
  format: 1,
  engine: ENGINE,
  runId: 'replay',
  jobId: null,
  practice: false,
  utcMs: null,
  software: 'replay',
};

const PAGE_MAGIC = 'Sbarpage';
const USUAL_RATE_HZ = 50;

function startsWith(bytes: Uint8Array, text: string): boolean {
  return bytes.length >= text.length && [...text].every((c, i) => bytes[i] === c.charCodeAt(0));
}

/** The entries of an input log. A tail torn by a crash is left out; other damage is a fault. */
function readLog(bytes: Uint8Array): { head: LogHead; entries: LogEntry[] } {
  const entries: LogEntry[] = [];
  const scan = scanRun(bytes, { entry: (e) => entries.push(e) });
  const damage = scan.damage.find((d) => d.what !== 'torn' || d.offset < scan.goodBytes);
  if (damage !== undefined) throw fault((f) => f.damagedLog(damage.page, damage.offset, damage.what));
  if (scan.head === null) throw fault((f) => f.headlessLog);
  return { head: scan.head, entries };
}

/** @throws InputFault; the message does not name the file, the caller knows it */
function feedOf(options: ReplayOptions, bytes: Uint8Array, job: JobBundle | null): Feed {
  if (bytes.length === 0) throw fault((f) => f.emptyFile);
  if (startsWith(bytes, PAGE_MAGIC)) return logFeed(options, bytes, job);
  const start = new TextDecoder().decode(bytes.subarray(0, 4096));
  return looksLikeCsv(start) ? readCsvFeed(options, bytes, job) : captureFeed(options, bytes, job);
}

function* behind(setup: Setup, entries: Iterable<LogEntry>): Generator<LogEntry> {
  yield { l: 'setup', tUs: 0, setup };
  yield* entries;
}

function bare(entries: Iterable<LogEntry>, setup: Setup, unusable: UnusableCells): Feed {
  return { head: BARE, entries: behind(setup, entries), setup, infer: true, unusable };
}

function readCsvFeed(options: ReplayOptions, bytes: Uint8Array, job: JobBundle | null): Feed {
  const trace = readCsv(new TextDecoder().decode(bytes));
  const planned = job === null ? null : jobSetup(job, null);
  const csv = csvFeed(trace, options.uBar ?? planned?.limits?.uBar ?? DEFAULT_U_BAR);
  const { channels, rateHz } = csv;
  const setup =
    planned === null
      ? plainSetup(options, channels, rateHz)
      : overruled({ ...planned, channels, rateHz }, options);
  return bare(csv.entries, setup, trace.unusable);
}

function captureFeed(options: ReplayOptions, bytes: Uint8Array, job: JobBundle | null): Feed {
  let capture: ReturnType<typeof captureEntries>;
  try {
    capture = captureEntries(bytes);
  } catch (cause) {
    if (cause instanceof InputFault) throw fault((f, words) => f.noTrace(cause.text(words)));
    throw cause;
  }
  if (capture.device === null && job === null) throw fault((f) => f.noHello);
  const first = capture.entries.filter((e) => e.l === 'frame' && e.frame.t === 'S').slice(0, 10_000);
  const rateHz = rateOf(Float64Array.from(first, (e) => e.tUs / 1e6));
  // Without a job the engine takes the scale that the device suggests.
  const setup =
    job === null
      ? plainSetup(options, [], rateHz)
      : overruled({ ...jobSetup(job, capture.device), rateHz }, options);
  return bare(capture.entries, setup, NOTHING_UNUSABLE);
}

/** An input log carries its own setups; a job or a limit on the command line replaces them all. */
function logFeed(options: ReplayOptions, bytes: Uint8Array, job: JobBundle | null): Feed {
  const { head, entries } = readLog(bytes);
  const infer = !entries.some((e) => e.l === 'command');
  const last = entries.reduce<Setup | null>((found, e) => (e.l === 'setup' ? e.setup : found), null);
  const { ratedBar, workingBar, uBar, tap, line } = options;
  if ([ratedBar, workingBar, uBar, tap, line, job].every((x) => x === null))
    return { head, entries, setup: last, infer, unusable: NOTHING_UNUSABLE };
  const planned = job === null ? null : jobSetup(job, deviceOf(entries));
  const known = planned ?? last;
  const setup = known === null ? plainSetup(options, [], USUAL_RATE_HZ) : overruled(known, options);
  const rest = entries.filter((e) => e.l !== 'setup');
  return { head, entries: behind(setup, rest), setup, infer, unusable: NOTHING_UNUSABLE };
}

/**
 * Judges a trace as the engine does.
 * @param trace the file's bytes: an input log, a bare capture of the protocol, or a CSV
 * @param job the job file's text, if one was named
 * @param words in which the result's alarms are told
 * @throws InputFault
 */
export function replay(
  options: ReplayOptions,
  trace: Uint8Array,
  job: string | null,
  words: Catalogue,
): ReplayResult {
  const bundle = job === null ? null : readJob(job, options.job ?? '');
  let feed: Feed;
  try {
    feed = feedOf(options, trace, bundle);
  } catch (cause) {
    if (cause instanceof InputFault)
      throw fault((f, w) => f.inFile(`--trace ${options.trace}`, cause.text(w)));
    throw cause;
  }
  return outcome(judge(feed.head, feed.entries, feed.infer), feed.setup, feed.unusable, words);
}
