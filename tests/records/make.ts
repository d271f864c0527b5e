/**
 * npm run records
 *
 * Makes the sealed job in fixtures/records anew: a short repair on the simulated site, sealed, with a correction by the
 * tablet's own key and a note by the office's. The office countersigned the tablet's witness log on the evening before and on
 * the evening after. All keys are made for it and thrown away, so that each time it is another file by other keys;
 * fixtures/records/keys.txt names them as a firm would. Beside it lies what a phone read from the code at the end of the run.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { SOFTWARE } from '../../src/engine/version.ts';
import { createFakeFolder } from '../../src/evidence/office/testing/fake-folder.ts';
import { handlesIn } from '../../src/evidence/office/testing/handles.ts';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { addToSealed } from '../../src/record/seal.ts';
import { keepAdditions, loadSealed } from '../../src/record/stores/sealed-store.ts';
import { newSigner, recordCrypto } from '../../src/record/testing/sealing.ts';

const FOLDER = 'fixtures/records';
const HOUR_MS = 3_600_000;

const shared = createFakeFolder();
const tablet = createOffice({ software: SOFTWARE, handles: handlesIn() });
const office = createOffice({ software: SOFTWARE, handles: handlesIn() });
for (const one of [tablet, office]) await one.ask({ q: 'office-choose', handle: shared });

/** So many hours later by both clocks, the office signs what the tablet laid into the shared folder. */
async function evening(hours: number): Promise<void> {
  for (const one of [tablet, office]) one.bench.wall.ms += hours * HOUR_MS;
  await tablet.ask({ q: 'office-witness', countersign: false });
  await office.ask({ q: 'office-witness', countersign: true });
  await tablet.ask({ q: 'office-witness', countersign: false });
}

await tablet.keepJob();
await tablet.ask({ q: 'backup' });
await evening(0);
tablet.bench.wall.ms += 14 * HOUR_MS;
office.bench.wall.ms += 14 * HOUR_MS;
const runId = await tablet.record({ holdS: 20 });
const photograph = (await tablet.ask({ q: 'log' })).checkpoint;
const { fingerprint } = await tablet.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
await tablet.ask({
  q: 'add',
  runId,
  kind: 'correction',
  text: 'The manhole is number 17, not 71.',
  by: 'Crew North',
});
const sealed = await loadSealed(tablet.documents, runId);
if (sealed === null) throw new Error('the run was not sealed');
const other = await newSigner();
const body = { text: 'Compared with the camera’s picture: it is this repair.', by: 'Office' };
const utcMs = Math.round(tablet.bench.wall.ms + tablet.bench.timers.nowUs() / 1000 + HOUR_MS);
const note = { kind: 'note', body, utcMs } as const;
await keepAdditions(tablet.documents, runId, await addToSealed(sealed, note, other, recordCrypto), utcMs);
const ref = { kind: 'run', runId } as const;
// Building the file notes the office's addition; the evening's signature then holds it too.
await tablet.ask({ q: 'job-file', ref });
await evening(8);
const { file } = await tablet.ask({ q: 'job-file', ref });
const witness = (await office.ask({ q: 'log' })).asWitness;

mkdirSync(FOLDER, { recursive: true });
writeFileSync(path.join(FOLDER, 'sealed.steadybar.zip'), new Uint8Array(await file.arrayBuffer()));
writeFileSync(path.join(FOLDER, 'photograph.txt'), photograph);
writeFileSync(
  path.join(FOLDER, 'keys.txt'),
  `# Keys of an invented firm, thrown away when sealed.steadybar.zip was made.\n${fingerprint} Tablet 1\n${other.fingerprint} Office\n${witness} Office, as a witness\n`,
);
console.log(`${FOLDER}/sealed.steadybar.zip: ${file.size} bytes, run ${runId}`);
process.exit(0);
