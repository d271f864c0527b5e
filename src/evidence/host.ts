import type { TraceWindow } from '../engine/messages.ts';
import { outlineOf } from '../engine/outline.ts';
import { createRunList } from '../engine/run-list.ts';
import { createAnswers, type Handlers } from '../engine/worker/answers.ts';
import type { SecondPressure } from '../job/codes.ts';
import type { Wording } from '../job/wording.ts';
import { csvRow } from '../record/csv.ts';
import { blobOf, blobSource } from '../record/stores/blob-source.ts';
import { listImports } from '../record/stores/imports.ts';
import { loadSealed } from '../record/stores/sealed-store.ts';
import { SECOND_NAMES } from '../record/trace-csv.ts';
import { checkSealedProof } from '../record/witness/check-proof.ts';
import type { CatalogueOf } from '../words/catalogue.ts';
import { listArchive } from './archive-list.ts';
import { makeBackup } from './backup/make.ts';
import { lookInto, restoreFrom } from './backup/restore.ts';
import { captureOf } from './capture.ts';
import { certificatePage } from './certificate/page.ts';
import { type Checked, checkFile, firstLook, keepChecked, loadKept, removeKept } from './checked-files.ts';
import { cutAt } from './cut.ts';
import { debriefFor, playedIn, saidIn } from './debrief.ts';
import type { EvidenceDeps, Tell } from './deps.ts';
import { differences } from './differences.ts';
import { enclosedAnswers } from './enclosed/answers.ts';
import { removeBesideRun } from './enclosed/enclosed.ts';
import { EvidenceError, evidenceCode } from './faults.ts';
import { type FileLabel, labelFor, readSketch, removeLabel, writeLabel } from './labels.ts';
import type {
  EvidenceAnswers,
  EvidenceContract,
  RecordRef,
  Sketch,
  ToEvidence,
  VerifyView,
} from './messages.ts';
import { asksReason, refText } from './messages.ts';
import { createOfficeFolder, handleStore } from './office/office.ts';
import type { OpenRecord } from './open.ts';
import { createOpenedRecords, manifestOf, sealedFacts, smallPhotosOf, viewOf } from './opened-records.ts';
import { packetOf } from './packet.ts';
import { bundleIn } from './papers.ts';
import { overlay } from './pictures.ts';
import { keepProgress, progressOf } from './progress.ts';
import { setStatus, statusesOf } from './reviews.ts';
import { createSavedRuns } from './saved-runs.ts';
import { addTo, buildFile, labelSent, sealedNow, sealRun } from './sealing.ts';
import {
  changeKey,
  forgetSigner,
  keyView,
  knownSigners,
  knowSigner,
  replaceSigner,
  setSignerTerm,
  trustOf,
} from './signers.ts';
import { SKETCH_STEPS, sketchOf } from './sketch.ts';
import { witnessAnswers } from './witness/answers.ts';
import { createOwnLog } from './witness/own-log.ts';

/** The evidence worker behind its shell: answers each request once, whatever comes. */
export interface EvidenceHost {
  receive(message: ToEvidence): void;
}

/** More points than this are no picture of the data any more but a copy; the job's file holds all. */
const MOST_ROWS = 200_000;

/** Of a record whose file is open. */
async function sketchOfRecord({ detail, ...record }: OpenRecord): Promise<Sketch> {
  const values = await record.values();
  return sketchOf(detail, values.window(0, detail.lastS, SKETCH_STEPS), values.peakBar);
}

/** A record of a later version may be written in a language that this one has not. */
const orRefused =
  (catalogueOf: CatalogueOf): CatalogueOf =>
  (wording) =>
    catalogueOf(wording).catch((cause: unknown) => {
      if (cause instanceof RangeError) throw new EvidenceError('language-future', cause.message);
      throw cause;
    });

export function createEvidenceHost(given: EvidenceDeps): EvidenceHost {
  const deps = { ...given, catalogueOf: orRefused(given.catalogueOf) };
  const trust = () => trustOf(deps.documents);
  const log = createOwnLog(deps);
  const verdicts = new Map<string, VerifyView['verdict']>();
  let opened: Checked | null = null;

  const openRecords = createOpenedRecords(deps, async (sha256) => {
    const { record, verdict } = await loadKept(deps, sha256, await trust());
    verdicts.set(sha256, verdict);
    return record;
  });

  /** Checked once; not kept open, so that a long list doesn't push out what is being looked at. */
  async function makeLabel(sha256: string): Promise<{ label: FileLabel; sketch: Sketch }> {
    const { record, verdict } = await loadKept(deps, sha256, await trust());
    verdicts.set(sha256, verdict);
    const sketch = await sketchOfRecord(record);
    const label = labelFor(record.manifest!, sketch);
    await writeLabel(deps, sha256, label, sketch).catch(() => undefined);
    return { label, sketch };
  }

  const verdictOf = (ref: RecordRef): VerifyView['verdict'] | null =>
    ref.kind === 'run'
      ? null
      : ref.kind === 'opened'
        ? (opened?.view.verdict ?? null)
        : (verdicts.get(ref.sha256) ?? null);

  const titleOf = (record: OpenRecord): string =>
    (record.manifest === null ? null : bundleIn(record.manifest.job)?.job.title) ??
    record.detail.summary.title;

  const office = createOfficeFolder(deps, deps.handles ?? handleStore(deps), async (runId, tell) =>
    buildFile(deps, log, await openRecords.open({ kind: 'run', runId }), runId, tell),
  );
  const silent: Tell = () => deps.pause();
  /** Practice goes into no shared folder. */
  const isPractice = async (runId: string): Promise<boolean> => {
    const resting = await loadSealed(deps.documents, runId);
    return manifestOf(resting)?.practice === true;
  };
  /** The seal is at rest: that its file is in the shared folder is tried beside it, and again later. */
  const waits = async (runId: string): Promise<void> => {
    if (await isPractice(runId)) return;
    void office.enqueue([runId]).then(
      () => office.write(silent).catch(() => undefined),
      () => undefined,
    );
  };

  // Long work looks at this between its slices.
  let cancelled = 0;
  const unless = (tell: Tell): Tell => {
    const at = cancelled;
    return async (share) => {
      await tell(share);
      if (cancelled !== at) throw new EvidenceError('cancelled', 'ended by hand');
    };
  };

  const saved = createSavedRuns(deps);

  /** null: the run is still open. */
  async function sketchFor(ref: RecordRef): Promise<Sketch | null> {
    if (ref.kind === 'run') {
      const detail = await saved.detail(ref.runId, false);
      if (detail.summary.state === 'open') return null;
      const window = await saved.window(ref.runId, 0, detail.lastS, SKETCH_STEPS);
      return sketchOf(detail, window, detail.summary.peakBar);
    }
    if (ref.kind === 'import')
      return (await readSketch(deps, ref.sha256)) ?? (await makeLabel(ref.sha256)).sketch;
    return sketchOfRecord(await openRecords.open(ref));
  }

  /** The record's file; of a run of this computer it is built anew. */
  async function jobFile(ref: RecordRef, tell: Tell): Promise<EvidenceAnswers['job-file']> {
    if (ref.kind === 'import') {
      const { file } = await loadKept(deps, ref.sha256, await trust());
      const kept = (await listImports(deps.documents)).find((i) => i.sha256 === ref.sha256);
      return { name: kept?.name ?? `${ref.sha256}.zip`, file: await blobOf(file, 'application/zip') };
    }
    const runId = ref.kind === 'run' ? ref.runId : null;
    const built = await buildFile(deps, log, await openRecords.open(ref), runId, tell);
    if (runId !== null && !(await isPractice(runId))) await labelSent(deps, runId, deps.utcMs());
    return built;
  }

  async function certificateOf(ref: RecordRef, tell: Tell, wording?: Wording) {
    const record = await openRecords.open(ref);
    const facts = await sealedFacts(deps, record, await trust());
    if (record.manifest === null || facts === null)
      throw new EvidenceError('not-sealed', 'a certificate is made from a sealed record only');
    const { manifestSha256 } = facts;
    const { manifest } = record;
    const words = await deps.catalogueOf(wording ?? manifest.wording);
    const sealed = await sealedNow(deps, log, record.sealed!, ref.kind === 'run' ? ref.runId : null);
    const proof = await checkSealedProof(deps.crypto, sealed, manifest);
    const witnessed = proof?.faults.length === 0 ? proof.witnessed : null;
    const html = certificatePage(
      {
        manifest,
        manifestSha256,
        witnessed,
        photos: await smallPhotosOf(record),
        played: manifest.practice ? playedIn(record.pages) : [],
      },
      await record.values(tell),
      words,
      facts.additions,
      (await statusesOf(deps.documents, refText(ref))).at(-1) ?? null,
    );
    return { html, title: titleOf(record), manifestSha256, words, sealedIn: manifest.wording.language };
  }

  const handlers: Handlers<EvidenceContract> = {
    run: ({ runId, check }) => saved.detail(runId, check ?? false),
    'run-window': ({ runId, fromS, toS, points }) => saved.window(runId, fromS, toS, points),
    'run-capture': ({ runId }) => saved.capture(runId),
    'remove-run': async ({ runId }) => {
      const { jobId } = await createRunList(deps.documents, deps.files, deps.utcMs).find(runId);
      await saved.remove(runId);
      await removeBesideRun(deps, { jobId, runId });
      openRecords.drop({ kind: 'run', runId });
      return null;
    },
    'let-go': async () => {
      await saved.letGo();
      return null;
    },
    'pages-outline': ({ pages }) => outlineOf(blobSource(pages)),
    'pages-capture': ({ pages }) => captureOf(blobSource(pages)),
    backup: async (_, tell) => {
      const { sha256, ...made } = await makeBackup(deps, unless(tell));
      await log.event({ leaf: 'backup', backup: sha256 });
      return made;
    },
    'restore-look': ({ file }, tell) => lookInto(deps, file, unless(tell)),
    restore: async ({ file, token, choice }, tell) => {
      const { sha256, ...done } = await restoreFrom(deps, file, token, choice, unless(tell));
      await log.event({ leaf: 'restored', backup: sha256 });
      if (done.key?.made) await log.event({ leaf: 'key', key: done.key.fingerprint, why: 'first' });
      return done;
    },
    cancel: () => {
      cancelled++;
      return null;
    },
    seal: async ({ runId, wording, page }) => {
      const done = await sealRun(deps, log, runId, wording, page ?? null);
      openRecords.drop({ kind: 'run', runId });
      await waits(runId);
      return done;
    },
    'job-file': ({ ref }, tell) => jobFile(ref, tell),
    sent: async ({ runId }) => {
      await labelSent(deps, runId, deps.utcMs());
      return null;
    },
    add: async ({ runId, q, ...addition }) => {
      await addTo(deps, log, runId, addition);
      openRecords.drop({ kind: 'run', runId });
      await waits(runId);
      return null;
    },
    office: () => office.view(),
    'office-choose': ({ handle }) => office.choose(handle),
    'office-forget': () => office.forget(),
    'office-write': (_, tell) => office.write(unless(tell)),
    'office-all': async () => {
      const sealed = (await deps.documents.list('seal')).map((d) => d.id);
      const work: string[] = [];
      for (const id of sealed) if (!id.startsWith('import-') && !(await isPractice(id))) work.push(id);
      await office.enqueue(work);
      return office.view();
    },
    'office-list': async (_, tell) => office.list(await trust(), unless(tell)),
    'office-seen': async () => {
      await office.seen();
      return null;
    },
    'office-file': ({ name }) => office.file(name),
    ...witnessAnswers(deps, log, {
      trust,
      folder: () => office.folder(),
      opened: () => opened?.proof ?? null,
    }),
    key: () => keyView(deps),
    'change-key': async () => {
      const view = await changeKey(deps);
      if (view.key !== null) await log.event({ leaf: 'key', key: view.key.fingerprint, why: 'changed' });
      return view;
    },
    signers: () => knownSigners(deps.documents),
    'know-signer': ({ fingerprint, name }) => knowSigner(deps, fingerprint, name),
    'signer-term': ({ fingerprint, term }) => setSignerTerm(deps, fingerprint, term),
    'replace-signer': ({ fingerprint, by, utcMs }) => replaceSigner(deps, fingerprint, by, utcMs),
    'forget-signer': ({ fingerprint }) => forgetSigner(deps, fingerprint),
    verify: async ({ file, name }, tell) => {
      opened = null;
      openRecords.lay(null);
      opened = await checkFile(deps, file, name, await trust(), unless(tell));
      openRecords.lay(opened.record);
      return opened.view;
    },
    'verify-first': async ({ file }) => firstLook(deps, file, await trust()),
    'keep-opened': async ({ sha256 }) => {
      if (opened === null) throw new EvidenceError('missing', 'no file is open');
      if (opened.view.sha256 !== sha256) throw new EvidenceError('stale', 'another file was opened since');
      const { view, record } = opened;
      const done = await keepChecked(deps, opened);
      // The list makes it up where this is cut short.
      if (record?.manifest) {
        const sketch = await sketchOfRecord(record);
        await writeLabel(deps, view.sha256, labelFor(record.manifest, sketch), sketch);
      }
      return done;
    },
    'remove-import': async ({ sha256 }) => {
      await removeKept(deps, sha256);
      await removeLabel(deps, sha256);
      openRecords.drop({ kind: 'import', sha256 });
      return null;
    },
    archive: async () => listArchive(deps, await trust(), async (sha256) => (await makeLabel(sha256)).label),
    sketch: ({ ref }) => sketchFor(ref),
    'set-status': ({ ref, status, reason, by }) =>
      setStatus(deps, refText(ref), { status, reason, by }, async () => {
        // The verdict on a file is known once it was opened.
        if (ref.kind !== 'run') await openRecords.open(ref);
        const sketch = await sketchFor(ref);
        return sketch !== null && !asksReason(sketch, verdictOf(ref));
      }),
    statuses: ({ ref }) => statusesOf(deps.documents, refText(ref)),
    record: async ({ ref }, tell) => {
      const record = await openRecords.open(ref);
      return viewOf(deps, ref, record, await trust(), verdictOf(ref), tell);
    },
    'record-window': async ({ ref, fromS, toS, points }) =>
      (await (await openRecords.open(ref)).values()).window(fromS, toS, points),
    'judge-again': async ({ ref }) => differences(await openRecords.open(ref)),
    ...enclosedAnswers(deps, (ref) => openRecords.open(ref)),
    picture: async ({ order }) => {
      if (order.refs.length === 0 || order.refs.length > 6)
        throw new EvidenceError('bad-request', 'one to six records');
      const records: OpenRecord[] = [];
      for (const ref of order.refs) records.push(await openRecords.open(ref));
      const words = await deps.catalogueOf(order.wording);
      const dated = (r: OpenRecord): string => {
        const { openedUtcMs } = r.detail.summary;
        const date = new Date(openedUtcMs).toISOString().slice(0, 16).replace('T', ' ');
        return words.picture.PICTURE.dated(cutAt(titleOf(r), 28), date);
      };
      return overlay(order, records, records.map(dated), words);
    },
    'visible-data': async ({ ref, fromS, toS }) => {
      const { detail, ...record } = await openRecords.open(ref);
      const window = (await record.values()).window(fromS, toS, MOST_ROWS);
      return new Blob([visibleCsv(window, detail.utcMs, detail.firstUs, fromS, toS)], { type: 'text/csv' });
    },
    debrief: async ({ ref }) => {
      const { pages, detail } = await openRecords.open(ref);
      const { summary, firstUs, lastS, events } = detail;
      const lastUs = firstUs + lastS * 1e6;
      const told = debriefFor(saidIn(pages), {
        events,
        setups: detail.setups,
        firstUs,
        lastUs,
        ended: summary.state === 'ended',
      });
      if (ref.kind === 'run' && told !== null) await keepProgress(deps, ref.runId, summary.openedUtcMs, told);
      return told;
    },
    progress: () => progressOf(deps),
    certificate: async ({ ref, wording }, tell) => {
      const { html, title, sealedIn } = await certificateOf(ref, tell, wording);
      return { html, title, sealedIn };
    },
    packet: async ({ ref }, tell) => {
      const half = (from: number) => unless((share) => tell(from + share / 2));
      const made = await certificateOf(ref, half(0));
      const record = await openRecords.open(ref);
      return packetOf(deps, record, await jobFile(ref, half(0.5)), made, made.words);
    },
  };

  const answer = createAnswers<EvidenceContract>({
    handlers,
    codeOf: evidenceCode,
    post: (message) => deps.post(message),
    pause: () => deps.pause(),
  });

  return { receive: (message) => void answer(message) };
}

/** As the tables of a sealed record name the same value. */
function columnName({ name, place, channel }: TraceWindow['series'][number]): string {
  if (name === 'bar') return 'pressure_bar';
  if (name === 'second') return SECOND_NAMES[place as SecondPressure].bar;
  return `temperature_c_${place ?? `ch${channel}`}`;
}

/** What a picture shows, as rows: of each bucket the lowest and the highest; single readings where they are few. */
export function visibleCsv(
  window: TraceWindow,
  utcMs: number | null,
  firstUs: number,
  fromS: number,
  toS: number,
): string {
  const columns = window.series.flatMap((s) => {
    const name = columnName(s);
    return [`${name}_lowest`, `${name}_highest`];
  });
  const rows = [csvRow(['time_s', 'utc', ...columns])];
  const round = (v: number | undefined): number | null =>
    v === undefined || Number.isNaN(v) ? null : Math.round(v * 1e5) / 1e5;
  window.s.forEach((s, i) => {
    if (s < fromS || s > toS) return;
    const utc = utcMs === null ? '' : new Date(utcMs + firstUs / 1000 + s * 1000).toISOString();
    const values = window.series.flatMap((x) => [round(x.min[i]), round(x.max[i])]);
    rows.push(csvRow([Math.round(s * 1e6) / 1e6, utc, ...values]));
  });
  return rows.join('');
}
