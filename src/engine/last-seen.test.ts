import { expect, it } from 'vitest';
import { createManualTimers } from '../link/testing/timers.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { StoreError } from '../record/stores/store.ts';
import { createWitnessLog, LEAVES_A_SHEET } from '../record/stores/witness-log.ts';
import { leafText } from '../record/witness/leaves.ts';
import { lastSeen } from './last-seen.ts';

const word = (digit: string, what: 'cosignature' | 'stamp') =>
  leafText({ leaf: 'witnessed', at: 1, what, sha256: digit.repeat(64) });

it('is the newest cosignature of the log, behind whatever was noted since; none in a log without', async () => {
  const documents = createMemoryDocuments();
  const deps = { documents, utcMs: () => 1, timers: createManualTimers() };
  expect(await lastSeen(deps)).toBeNull();
  const log = createWitnessLog(documents, () => 1);
  for (const leaf of [word('1', 'cosignature'), word('2', 'cosignature'), word('3', 'stamp')])
    await log.append(leaf);
  expect(await lastSeen(deps)).toBe('2'.repeat(64));
  for (let at = 0; at < LEAVES_A_SHEET + 5; at++)
    await log.append(leafText({ leaf: 'backup', at, backup: '0'.repeat(64) }));
  expect(await lastSeen(deps)).toBe('2'.repeat(64));
});

it('a store that refuses or does not answer holds up no run', async () => {
  const timers = createManualTimers();
  const documents = createMemoryDocuments();
  const refusing = { ...documents, get: () => Promise.reject(new StoreError('failed', 'disk')) };
  expect(await lastSeen({ documents: refusing, utcMs: () => 1, timers })).toBeNull();
  const silent = { ...documents, get: () => new Promise<never>(() => undefined) };
  const asked = lastSeen({ documents: silent, utcMs: () => 1, timers });
  await timers.run(5000);
  expect(await asked).toBeNull();
});
