import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';

/** A sealed record of a short run, as a file on disk. */
export async function sealedFile(): Promise<{ readonly file: string; dispose(): void }> {
  const office = createOffice();
  await office.keepJob();
  const runId = await office.record({ holdS: 300 });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const { name, file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-engines-'));
  const at = path.join(folder, name);
  writeFileSync(at, Buffer.from(await file.arrayBuffer()));
  return { file: at, dispose: () => rmSync(folder, { recursive: true, force: true }) };
}
