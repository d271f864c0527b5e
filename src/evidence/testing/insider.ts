/**
 * Who has a key that is known, and this program: rewrites a run's log as he likes, has it judged again so that every judgement
 * follows, makes pages and chain anew, signs, and builds the file.
 */
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { bytesSource } from '../../record/byte-source.ts';
import { joinBytes } from '../../record/bytes.ts';
import { canonicalBytes } from '../../record/canonical.ts';
import { toHex } from '../../record/hex.ts';
import { buildJobFile } from '../../record/job-file.ts';
import type { LogEntry, LogHead } from '../../record/log.ts';
import { contentOf, type Manifest, makeManifest } from '../../record/manifest.ts';
import { FILE } from '../../record/members.ts';
import { pageEntries } from '../../record/page.ts';
import { scanPages } from '../../record/page-scanner.ts';
import type { Signer } from '../../record/signing.ts';
import { inMemory, recordCrypto } from '../../record/testing/sealing.ts';
import { zipBytes } from '../../record/testing/zips.ts';
import { type Verification, type VerifyOptions, verifyJobFile } from '../../record/verify.ts';
import { createPageWriter } from '../../record/writer.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { loadCatalogue } from '../../words/catalogue.ts';
import { type Deriving, deriving } from '../deriving.ts';
import { judge } from '../judge.ts';

export interface Forgery {
  readonly head?: Partial<LogHead>;
  /** What stands in an entry's place; an empty list takes it out. */
  readonly entry?: (entry: LogEntry, i: number) => readonly LogEntry[];
  /** The events; left out: as the engine judges what was made of the entries. */
  readonly events?: (recorded: readonly WatchEvent[]) => readonly WatchEvent[];
  /** The wall clock of a page. */
  readonly utcMs?: (utcMs: number | null) => number | null;
  readonly papers?: unknown;
  readonly manifest?: Partial<Manifest>;
  /** How the files of the record are made that are no pages. */
  readonly deriving?: Partial<Pick<Deriving, 'words' | 'extras'>>;
}

interface PageOf {
  readonly entries: readonly LogEntry[];
  readonly events: readonly WatchEvent[];
  readonly utcMs: number | null;
}

/** Events in the pages of their time, in their order. */
function written(head: LogHead, pages: readonly PageOf[], events: readonly WatchEvent[]): Uint8Array {
  const writer = createPageWriter(head);
  let next = 0;
  return joinBytes(
    pages.map(({ entries, utcMs }, i) => {
      for (const entry of entries) writer.addEntry(entry);
      const isLast = i === pages.length - 1;
      const untilUs = isLast ? Number.POSITIVE_INFINITY : (entries[entries.length - 1]?.tUs ?? 0);
      for (; next < events.length && events[next]!.tUs <= untilUs; next++) writer.addEvent(events[next]!);
      return isLast ? writer.finish(utcMs, 'ended') : writer.cut(utcMs)!;
    }),
  );
}

/** @param pages of a run that was recorded as it was */
export function createInsider(pages: Uint8Array, signer: Signer, job: unknown) {
  let head: LogHead | null = null;
  const recorded: PageOf[] = [];
  for (const item of scanPages(pages)) {
    if (item.kind !== 'page') continue;
    head ??= item.page.head;
    const { events, header } = item.page;
    recorded.push({ entries: [...pageEntries(item.page)], events, utcMs: header.utcMs });
  }
  if (head === null) throw new Error('no first page');
  const genuine = head;

  async function forge(forgery: Forgery): Promise<Uint8Array> {
    const { entry = (e) => [e], utcMs = (ms) => ms } = forgery;
    const of = { ...genuine, ...forgery.head };
    let i = 0;
    const list = recorded.map((page) => ({
      ...page,
      entries: page.entries.flatMap((e) => entry(e, i++)),
      utcMs: utcMs(page.utcMs),
    }));
    const events =
      forgery.events === undefined
        ? (await judge.run(bytesSource(written(of, list, [])), () => undefined)).events
        : forgery.events(recorded.flatMap((page) => page.events));
    const forged = written(of, list, events);
    const { content } = contentOf(forged)!;
    const manifest = canonicalBytes({
      ...makeManifest(content, {
        pagesSha256: toHex(await recordCrypto.sha256(forged)),
        sealedUtcMs: (content.endedUtcMs ?? 0) + 60_000,
        sealedBy: 'test',
        job: forgery.papers ?? job,
        log: null,
        wording: PLAIN_WORDING,
        signer,
      }),
      ...forgery.manifest,
    });
    const sealed = { manifest, signature: await signer.sign(manifest), additions: [], proof: [] };
    const input = {
      pages: bytesSource(forged),
      sealed,
      ...deriving(loadCatalogue),
      ...forgery.deriving,
      signer,
    };
    return joinBytes(await buildJobFile(input, recordCrypto, inMemory));
  }

  /** Members of a file changed, and its sums made and signed anew. */
  async function summedAnew(
    members: readonly { readonly name: string; readonly bytes: Uint8Array }[],
  ): Promise<Uint8Array> {
    const rest = members.filter(
      ({ name }) => !name.startsWith('SHA256SUMS') && !name.startsWith('additions/'),
    );
    const lines = await Promise.all(
      rest.map(async ({ name, bytes }) => `${toHex(await recordCrypto.sha256(bytes))}  ${name}\n`),
    );
    const sums = new TextEncoder().encode(lines.join(''));
    return zipBytes([
      ...rest,
      { name: FILE.sums, bytes: sums },
      { name: FILE.sumsSignature, bytes: await signer.sign(sums) },
      ...members.filter(({ name }) => name.startsWith('additions/')),
    ]);
  }

  const verify = (file: Uint8Array, more: Partial<VerifyOptions> = {}): Promise<Verification> =>
    verifyJobFile(bytesSource(file), {
      crypto: recordCrypto,
      trusted: new Map([[signer.fingerprint, 'ours']]),
      ...deriving(loadCatalogue),
      ...more,
    });

  return { forge, summedAnew, verify, entries: recorded.flatMap((page) => page.entries) };
}
