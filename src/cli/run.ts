import type { LogEntry, LogHead } from '../engine/log.ts';
import { readBundle } from '../job/bundle.ts';
import type { Setup } from '../job/setup.ts';
import { scanRun } from '../record/reader.ts';
import { ENGINE } from '../watch/codes.ts';
import { captureEntries, sampleOf } from './captureEntries.ts';
import { looksLikeCsv, readCsv } from './csv.ts';
import { csvFeed, rateOf } from './csvEntries.ts';
import { fault, InputFault } from './fault.ts';
import { planSetup } from './jobSetup.ts';
import { judge } from './judge.ts';
import type { ReplayOptions } from './options.ts';
import { outcome } from './outcome.ts';
import type { ReplayResult } from './result.ts';
import { DEFAULT_U_BAR, overruled, plainSetup } from './setup.ts';

/** A trace ready to be judged. */
export interface Feed {
  readonly head: LogHead;
  readonly entries: readonly LogEntry[];
  /** Setups are among the entries already. */
  readonly hasSetups: boolean;
}

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

function startsWith(bytes: Uint8Array, text: string): boolean {
  return bytes.length >= text.length && [...text].every((c, i) => bytes[i] === c.charCodeAt(0));
}

/** The entries of an input log. A tail torn by a crash is left out; other damage is a fault. */
function readLog(bytes: Uint8Array): { head: LogHead; entries: LogEntry[] } {
  const entries: LogEntry[] = [];
  const scan = scanRun(bytes, { entry: (e) => entries.push(e) });
  const damage = scan.damage.find((d) => d.what !== 'torn' || d.offset < scan.goodBytes);
  if (damage !== undefined)
    throw fault(`page ${damage.page} (byte ${damage.offset}) of the input log is damaged: ${damage.what}`);
  if (scan.head === null) throw fault('the first page of the input log is not readable');
  return { head: scan.head, entries };
}

/** @throws InputFault; the message does not name the file, the caller knows it */
function feedOf(
  options: ReplayOptions,
  bytes: Uint8Array,
  job: Setup | null,
): Feed & { setup: Setup | null } {
  if (bytes.length === 0) throw fault('the file is empty');
  if (startsWith(bytes, PAGE_MAGIC)) return logFeed(options, bytes, job);
  const uBar = options.uBar ?? job?.limits?.uBar ?? DEFAULT_U_BAR;
  const start = new TextDecoder().decode(bytes.subarray(0, 4096));
  if (looksLikeCsv(start)) {
    const csv = csvFeed(readCsv(new TextDecoder().decode(bytes)), uBar);
    const setup =
      job === null ? plainSetup(options, csv.channels, csv.rateHz) : { ...job, channels: csv.channels };
    return bare(csv.entries, overruled({ ...setup, rateHz: csv.rateHz }, options));
  }
  return captureFeed(options, bytes, job);
}

function bare(entries: readonly LogEntry[], setup: Setup): Feed & { setup: Setup } {
  return {
    head: BARE,
    entries: [{ l: 'setup', tUs: 0, setup }, ...entries],
    hasSetups: true,
    setup,
  };
}

function captureFeed(options: ReplayOptions, bytes: Uint8Array, job: Setup | null): Feed & { setup: Setup } {
  let capture: ReturnType<typeof captureEntries>;
  try {
    capture = captureEntries(bytes);
  } catch (cause) {
    if (cause instanceof InputFault)
      throw fault(
        `neither an input log, nor a CSV with time_s and pressure_bar, nor a capture: ${cause.message}`,
      );
    throw cause;
  }
  if (!capture.described && job === null)
    throw fault('the capture holds no complete hello, so nothing says what its counts mean; give --job');
  const first = capture.entries.filter((e) => sampleOf(e) !== null).slice(0, 10_000);
  const rateHz = rateOf(Float64Array.from(first, (e) => e.tUs / 1e6));
  // Without a job the engine takes the scale that the device suggests.
  const setup = job ?? plainSetup(options, [], rateHz);
  return bare(capture.entries, overruled({ ...setup, rateHz }, options));
}

/** An input log carries its own setups; a job or a rated pressure on the command line replaces them all. */
function logFeed(
  options: ReplayOptions,
  bytes: Uint8Array,
  job: Setup | null,
): Feed & { setup: Setup | null } {
  const { head, entries } = readLog(bytes);
  const setups = entries.flatMap((e) => (e.l === 'setup' ? [e.setup] : []));
  const last = setups.at(-1) ?? null;
  const { ratedBar, workingBar, uBar, tap, line } = options;
  const changed = [ratedBar, workingBar, uBar, tap, line, job].some((x) => x !== null);
  if (!changed) return { head, entries, hasSetups: setups.length > 0, setup: last };
  const setup = overruled(job ?? last ?? plainSetup(options, [], 50), options);
  const rest = entries.filter((e) => e.l !== 'setup');
  return { head, entries: [{ l: 'setup', tUs: 0, setup }, ...rest], hasSetups: true, setup };
}

/** The setup that a job file asks for. @throws InputFault naming the member */
function jobSetup(text: string | null, name: string): Setup | null {
  if (text === null) return null;
  const bundle = readBundle(text);
  if (!bundle.ok) {
    const [issue] = bundle.issues;
    const at = issue === undefined || issue.path === '' ? 'the file' : issue.path;
    throw fault(`--job ${name}: ${at}: ${issue?.code ?? 'not a job file'}`);
  }
  return planSetup(bundle.value);
}

/**
 * Judges a trace as the engine does.
 * @param trace the file's bytes: an input log, a bare capture of the protocol, or a CSV
 * @param job the job file's text, if one was named
 * @throws InputFault
 */
export function replay(options: ReplayOptions, trace: Uint8Array, job: string | null): ReplayResult {
  const asked = jobSetup(job, options.job ?? '');
  let feed: ReturnType<typeof feedOf>;
  try {
    feed = feedOf(options, trace, asked);
  } catch (cause) {
    if (cause instanceof InputFault) throw fault(`--trace ${options.trace}: ${cause.message}`);
    throw cause;
  }
  const commands = feed.entries.some((e) => e.l === 'command');
  return outcome(judge(feed.head, feed.entries, !commands), feed.setup);
}
