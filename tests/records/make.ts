/**
 * npm run records
 *
 * Makes the sealed job in fixtures/records anew: a short repair on the simulated site, sealed, with a correction by
 * the tablet's own key and a note by the office's. Both keys are made for it and thrown away, so that each time it is
 * another file by other keys; fixtures/records/keys.txt names them as a firm would.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { SOFTWARE } from '../../src/engine/version.ts';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { addToSealed } from '../../src/record/seal.ts';
import { keepAdditions, loadSealed } from '../../src/record/stores/sealed-store.ts';
import { newSigner, recordCrypto } from '../../src/record/testing/sealing.ts';

const FOLDER = 'fixtures/records';

const office = createOffice({ software: SOFTWARE });
await office.keepJob();
const runId = await office.record({ holdS: 20 });
const { fingerprint } = await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
await office.ask({
  q: 'add',
  runId,
  kind: 'correction',
  text: 'The manhole is number 17, not 71.',
  by: 'Crew North',
});
const sealed = await loadSealed(office.documents, runId);
if (sealed === null) throw new Error('the run was not sealed');
const other = await newSigner();
const body = { text: 'Compared with the camera’s picture: it is this repair.', by: 'Office' };
const utcMs = office.bench.wall.ms + office.bench.timers.nowUs() / 1000 + 86_400_000;
const note = { kind: 'note', body, utcMs: Math.round(utcMs) } as const;
await keepAdditions(office.documents, runId, await addToSealed(sealed, note, other, recordCrypto), utcMs);
const { file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });

mkdirSync(FOLDER, { recursive: true });
writeFileSync(path.join(FOLDER, 'sealed.steadybar.zip'), new Uint8Array(await file.arrayBuffer()));
writeFileSync(
  path.join(FOLDER, 'keys.txt'),
  `# Keys of an invented firm, thrown away when sealed.steadybar.zip was made.\n${fingerprint} Tablet 1\n${other.fingerprint} Office\n`,
);
console.log(`${FOLDER}/sealed.steadybar.zip: ${file.size} bytes, run ${runId}`);
process.exit(0);
