/** The shared folder behind the evidence worker's requests: what waits to be written, what is there, what is new. */
import type { Verdict } from '../../record/findings.ts';
import { hashOf } from '../../record/hashing.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import { storeErrorOf } from '../../record/stores/dom-errors.ts';
import { listImports } from '../../record/stores/imports.ts';
import { StoreError } from '../../record/stores/store.ts';
import { verifyBySums } from '../../record/verify.ts';
import type { EvidenceDeps, Tell } from '../deps.ts';
import { deriving } from '../deriving.ts';
import { EvidenceError, evidenceCode } from '../faults.ts';
import { bundleIn } from '../papers.ts';
import { labelSent } from '../sealing.ts';
import { signerAt, type Trust, trustOptions } from '../signers.ts';
import { type Folder, filesIn, type HandleStore, writeInto } from './folder.ts';
import type { FileState, FolderLine, FolderList, OfficeView, Waiting, WriteReport } from './messages.ts';

const MOST_BYTES = 1 << 30;
const MOST_WAITING = 5000;
const MOST_SEEN = 20_000;

type Facts = Omit<FolderLine, 'fresh' | 'own' | 'kept' | 'signer' | 'name'> & {
  /** Who signed the record and each addition, and when: whether they are known is asked each time. */
  readonly signed: readonly { readonly fingerprint: string; readonly utcMs: number }[];
};

export interface Office {
  view(): Promise<OfficeView>;
  /** The folder itself. @throws EvidenceError 'missing' without one, StoreError 'denied' without permission */
  folder(): Promise<Folder>;
  choose(folder: Folder): Promise<OfficeView>;
  forget(): Promise<OfficeView>;
  /** A run was sealed, or added to: it waits, where a folder is chosen. */
  enqueue(runIds: readonly string[]): Promise<void>;
  write(tell: Tell): Promise<WriteReport>;
  list(trust: Trust, tell: Tell): Promise<FolderList>;
  seen(): Promise<void>;
  file(name: string): Promise<Blob>;
}

export function handleStore(deps: EvidenceDeps): HandleStore {
  return {
    async get() {
      const body = (await deps.documents.get('office', 'folder'))?.body as { handle?: Folder } | undefined;
      return body?.handle ?? null;
    },
    set: (handle) => putOne(deps, 'folder', { handle }),
  };
}

async function putOne(deps: EvidenceDeps, id: string, body: unknown): Promise<void> {
  const resting = await deps.documents.get('office', id);
  const revision = resting?.revision ?? 0;
  await deps.documents.put({ kind: 'office', id, revision, savedUtcMs: deps.utcMs(), body });
}

const STATES: Readonly<Record<Verdict, FileState>> = {
  valid: 'whole',
  'unknown-signer': 'whole',
  'not-derived': 'whole',
  changed: 'changed',
  incomplete: 'incomplete',
  refused: 'refused',
  practice: 'refused',
};

/** @param build makes the job's file of a sealed run */
export function createOfficeFolder(
  deps: EvidenceDeps,
  handles: HandleStore,
  build: (runId: string, tell: Tell) => Promise<{ readonly name: string; readonly file: Blob }>,
): Office {
  // What checking a file said, as long as its name, length and date stay; checked again when it is opened.
  const checked = new Map<string, Facts>();
  let listed: readonly string[] = [];

  // One change of the queue at a time.
  let turn: Promise<unknown> = Promise.resolve();
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = turn.then(work, work);
    turn = next.catch(() => undefined);
    return next;
  }

  async function waiting(): Promise<readonly Waiting[]> {
    const body = (await deps.documents.get('office', 'queue'))?.body;
    return Array.isArray(body) ? (body as Waiting[]).filter((w) => typeof w?.runId === 'string') : [];
  }

  async function need(): Promise<Folder> {
    const folder = await handles.get();
    if (folder === null) throw new EvidenceError('missing', 'no folder is chosen');
    if (folder.queryPermission !== undefined) {
      const permission = await folder.queryPermission({ mode: 'readwrite' });
      if (permission !== 'granted') throw new StoreError('denied', 'the browser asks for permission again');
    }
    return folder;
  }

  async function view(): Promise<OfficeView> {
    const handle = await handles.get();
    const permission =
      handle === null ? null : ((await handle.queryPermission?.({ mode: 'readwrite' })) ?? 'granted');
    return {
      folder: handle === null ? null : { name: handle.name, handle },
      permission,
      waiting: await waiting(),
    };
  }

  async function factsOf(file: Blob, trust: Trust): Promise<Facts> {
    const none = {
      runId: null,
      title: '',
      openedUtcMs: null,
      sha256: null,
      signed: [],
      finding: null,
    };
    if (file.size > MOST_BYTES) return { ...none, bytes: file.size, state: 'too-large', verdict: null };
    const source = blobSource(file);
    const sha256 = await hashOf(source, deps.crypto.hashing);
    const options = { crypto: deps.crypto, ...trustOptions(trust) };
    const v = await verifyBySums(source, options, () => deriving(deps.catalogueOf));
    const { manifest } = v;
    return {
      bytes: file.size,
      sha256,
      verdict: v.verdict,
      // An empty file is one that a syncing program has only promised so far.
      state: file.size === 0 ? 'incomplete' : STATES[v.verdict],
      finding: v.findings.find((f) => f.f !== 'signer' && f.f !== 'addition-signer') ?? null,
      signed: [
        ...(manifest === null
          ? []
          : [{ fingerprint: manifest.signer.fingerprint, utcMs: manifest.sealedUtcMs }]),
        ...v.additions.map((a) => ({ fingerprint: a.signer.fingerprint, utcMs: a.utcMs })),
      ],
      runId: manifest?.runId ?? null,
      title: manifest === null ? '' : (bundleIn(manifest.job)?.job.title ?? ''),
      openedUtcMs: manifest?.openedUtcMs ?? null,
    };
  }

  async function seenBefore(): Promise<ReadonlySet<string>> {
    const body = (await deps.documents.get('office', 'seen'))?.body;
    return new Set(Array.isArray(body) ? body.filter((s): s is string => typeof s === 'string') : []);
  }

  return {
    view,
    folder: need,
    async choose(folder) {
      await handles.set(folder);
      checked.clear();
      return view();
    },
    async forget() {
      await handles.set(null);
      return view();
    },
    enqueue: (runIds) =>
      inTurn(async () => {
        if ((await handles.get()) === null) return;
        const now = await waiting();
        const known = new Set(now.map((w) => w.runId));
        const more = runIds
          .filter((r) => !known.has(r))
          .map((runId) => ({ runId, sinceUtcMs: deps.utcMs(), fault: null }));
        if (more.length > 0) await putOne(deps, 'queue', [...now, ...more].slice(0, MOST_WAITING));
      }),
    write: (tell) =>
      inTurn(async () => {
        const queue = await waiting();
        const written: WriteReport['written'][number][] = [];
        const left: Waiting[] = [];
        for (const [i, entry] of queue.entries()) {
          await tell(i / queue.length);
          // Removed meanwhile: there is nothing to write any more.
          if ((await deps.documents.get('seal', entry.runId)) === null) continue;
          try {
            const folder = await need();
            const { name, file } = await build(entry.runId, tell);
            const done = await writeInto(folder, name, file, deps.crypto.hashing);
            await labelSent(deps, entry.runId, deps.utcMs());
            written.push({ runId: entry.runId, name: done.name, beside: done.outcome === 'beside' });
          } catch (cause) {
            // It stays in the queue, with the reason; the others are tried all the same.
            const code = evidenceCode(cause);
            if (code === 'cancelled') throw cause;
            left.push({ ...entry, fault: code });
          }
        }
        await putOne(deps, 'queue', left);
        return { written, waiting: left };
      }),
    async list(trust, tell) {
      const { files, more } = await filesIn(await need());
      const before = await seenBefore();
      const runs = new Set((await deps.documents.list('run')).map((d) => d.id));
      const kept = new Set((await listImports(deps.documents)).map((i) => i.sha256));
      const lines: FolderLine[] = [];
      for (const [i, entry] of files.entries()) {
        await tell(i / files.length);
        let facts: Facts | null = null;
        if (!('fault' in entry)) {
          const { size, lastModified } = entry.file;
          const key = `${entry.name}|${size}|${lastModified}`;
          try {
            facts = checked.get(key) ?? (await factsOf(entry.file, trust));
            checked.set(key, facts);
          } catch {
            // Taken away or exchanged while it was read.
          }
        }
        if (facts === null) {
          lines.push({ ...UNREADABLE, name: entry.name });
          continue;
        }
        const { signed, ...rest } = facts;
        const signers = signed.map((s) => signerAt(trust, s.fingerprint, s.utcMs));
        const signer = signers[0] ?? null;
        const verdict =
          facts.state !== 'whole' || facts.verdict === null
            ? facts.verdict
            : signers.includes(null)
              ? 'unknown-signer'
              : 'valid';
        lines.push({
          ...rest,
          name: entry.name,
          verdict,
          signer,
          fresh: facts.sha256 !== null && !before.has(facts.sha256),
          own: facts.state === 'whole' && facts.runId !== null && runs.has(facts.runId),
          kept: facts.sha256 !== null && kept.has(facts.sha256),
        });
      }
      listed = lines.flatMap((l) => (l.sha256 === null ? [] : [l.sha256]));
      return { lines, more };
    },
    async seen() {
      const all = new Set([...(await seenBefore()), ...listed]);
      await putOne(deps, 'seen', [...all].slice(-MOST_SEEN));
    },
    async file(name) {
      const folder = await need();
      try {
        return await (await folder.getFileHandle(name)).getFile();
      } catch (cause) {
        throw storeErrorOf(cause);
      }
    },
  };
}

const UNREADABLE: Omit<FolderLine, 'name'> = {
  bytes: null,
  state: 'unreadable',
  finding: null,
  verdict: null,
  runId: null,
  title: '',
  openedUtcMs: null,
  signer: null,
  sha256: null,
  fresh: false,
  own: false,
  kept: false,
};
