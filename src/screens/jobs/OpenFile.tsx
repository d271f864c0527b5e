import type { JobBundle } from '../../job/bundle.ts';
import type { Documents, JobDocumentKind } from '../../job/documents.ts';
import { issueText } from '../../words/issues.ts';
import { JOBS } from '../../words/jobs.ts';
import { WELCOME } from '../../words/welcome.ts';
import { useServices } from '../context.ts';
import { keep, newId } from '../documents/store.ts';
import { handOver } from '../verify/handed.ts';

/** Longest job file that is read at all, bytes. */
const MOST_BYTES = 4_000_000;

/** A record's file is a ZIP archive, which begins with these bytes (PKWARE APPNOTE, 4.3.7: local file header). */
const ZIP = [0x50, 0x4b, 0x03, 0x04];

async function isRecordFile(file: File): Promise<boolean> {
  const head = new Uint8Array(await file.slice(0, ZIP.length).arrayBuffer());
  return ZIP.every((byte, i) => head[i] === byte);
}

/**
 * A record goes to be verified; a job sheet is taken over, and what is here already under the same id is never
 * overwritten.
 */
export function OpenFile() {
  const app = useServices();
  let input!: HTMLInputElement;

  const absent = async <K extends JobDocumentKind>(kind: K, id: string, document: Documents[K]) => {
    if ((await app.ask({ q: 'document', kind, id })) === null) await keep(app, kind, id, 0, document);
  };
  const take = async (bundle: JobBundle) => {
    if (bundle.packer !== null) await absent('packer', bundle.packer.id, bundle.packer.document);
    if (bundle.resin !== null) await absent('resin', bundle.resin.id, bundle.resin.document);
    for (const s of bundle.sensors) await absent('sensor', s.id, s.document);
    // A sheet of that name that is here already stays; the file's becomes another one.
    const there = await app.ask({ q: 'document', kind: 'job', id: bundle.jobId });
    const id = there === null ? bundle.jobId : newId('job');
    await keep(app, 'job', id, 0, bundle.job);
    app.say(JOBS.fileKept);
    app.go({ page: 'sheet', jobId: id });
  };
  const open = async (file: File) => {
    if (await isRecordFile(file)) {
      handOver(file);
      app.go({ page: 'verify' });
      return;
    }
    const { readBundle } = await import('../../job/bundle.ts');
    const parsed =
      file.size > MOST_BYTES
        ? { ok: false as const, issues: [{ path: '', code: 'too-large' as const }] }
        : readBundle(await file.text());
    if (parsed.ok) {
      await take(parsed.value);
      return;
    }
    const first = parsed.issues[0];
    app.say(JOBS.fileRefused(first?.path ?? '', first === undefined ? null : issueText(first, app.units())));
  };
  return (
    <>
      <button type="button" class="door" data-testid="open-job-file" onClick={() => input.click()}>
        <strong>{WELCOME.openFile}</strong>
        <span>{WELCOME.doors.file}</span>
      </button>
      <input
        ref={input}
        type="file"
        accept=".json,application/json,.zip,application/zip"
        hidden
        aria-label={WELCOME.openFile}
        data-testid="job-file"
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          e.currentTarget.value = '';
          if (file !== undefined) open(file).catch(app.fail);
        }}
      />
    </>
  );
}
