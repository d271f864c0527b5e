import { expect, it } from 'vitest';
import { createScriptedLine, type ScriptedLine } from '../engine/worker/testing/line.ts';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { createEvidenceClient, isForeign } from './client.ts';
import type { EvidenceContract } from './messages.ts';

function bench() {
  const lines: ScriptedLine<EvidenceContract>[] = [];
  const timers: (() => void)[] = [];
  const client = createEvidenceClient(
    () => {
      const line = createScriptedLine<EvidenceContract>();
      lines.push(line);
      return line.line;
    },
    (_, call) => timers.push(call),
  );
  const answer = (line: number, at: number, value: unknown) =>
    lines[line]!.say({ m: 'answer', id: lines[line]!.sent[at]!.id, ok: true, value });
  return { client, lines, timers, answer };
}

const FILE = new Blob([]);
const SEAL = { q: 'seal', runId: 'r', wording: PLAIN_WORDING } as const;

it('a file that makes work without end delays no sealing', async () => {
  const { client, lines, answer } = bench();
  const listing = client.ask({ q: 'office-list' });
  const sealing = client.ask(SEAL);
  expect(lines.map((l) => l.sent.map((m) => m.request.q))).toEqual([['office-list'], ['seal']]);
  answer(1, 0, { fingerprint: 'f', newKey: null });
  expect((await sealing).fingerprint).toBe('f');
  answer(0, 0, { lines: [], more: 0 });
  expect((await listing).lines).toEqual([]);
});

it('whatever came from elsewhere is looked into apart from what was recorded here', () => {
  const run = { kind: 'run', runId: 'r' } as const;
  const kept = { kind: 'import', sha256: 'a'.repeat(64) } as const;
  const asked = [
    { q: 'verify', file: FILE, name: '' },
    { q: 'restore-look', file: FILE },
    { q: 'record', ref: kept },
    { q: 'certificate', ref: { kind: 'opened' } },
    { q: 'archive' },
    SEAL,
    { q: 'record', ref: run },
    { q: 'backup' },
    { q: 'key' },
  ] as const;
  expect(asked.map(isForeign)).toEqual([true, true, true, true, true, false, false, false, false]);
});

it('cancel lets a worker give up by itself, and ends one that does not answer', async () => {
  const { client, lines, timers, answer } = bench();
  const first = client.ask({ q: 'restore-look', file: FILE });
  const gentle = client.ask({ q: 'cancel' });
  answer(0, 1, null);
  lines[0]!.say({ m: 'answer', id: lines[0]!.sent[0]!.id, ok: false, code: 'cancelled', detail: '' });
  await expect(first).rejects.toMatchObject({ code: 'cancelled' });
  expect(await gentle).toBeNull();
  timers.shift()!();
  expect(lines[0]!.ended).toBe(false);

  const stuck = client.ask({ q: 'restore-look', file: FILE });
  const sealing = client.ask(SEAL);
  const hard = client.ask({ q: 'cancel' });
  timers.shift()!();
  await expect(stuck).rejects.toMatchObject({ code: 'cancelled' });
  expect(lines[0]!.ended).toBe(true);
  // What is recorded here goes on.
  expect(lines[1]!.ended).toBe(false);
  answer(1, 0, { fingerprint: 'f', newKey: null });
  answer(1, 1, null);
  expect((await sealing).newKey).toBeNull();
  expect(await hard).toBeNull();
  const again = client.ask({ q: 'archive' });
  answer(2, 0, []);
  expect(await again).toEqual([]);
});

it('cancel ends at once a worker that only looks into a file, whatever it is at', async () => {
  const { client, lines, timers, answer } = bench();
  const soon = client.ask({ q: 'verify-first', file: FILE });
  const sealing = client.ask(SEAL);
  const done = client.ask({ q: 'cancel' });
  await expect(soon).rejects.toMatchObject({ code: 'cancelled' });
  expect([lines[0]!.ended, lines[1]!.ended, timers]).toEqual([true, false, []]);
  answer(1, 0, { fingerprint: 'f', newKey: null });
  answer(1, 1, null);
  expect((await sealing).newKey).toBeNull();
  expect(await done).toBeNull();
  // The next file is looked into by another one.
  const again = client.ask({ q: 'verify', file: FILE, name: 'b' });
  expect(lines[2]!.sent.map((m) => m.request.q)).toEqual(['verify']);
  // Beside it something is written: that is given the time to give up by itself.
  const restoring = client.ask({ q: 'restore-look', file: FILE });
  void client.ask({ q: 'cancel' });
  expect(lines[2]!.ended).toBe(false);
  expect(lines[2]!.sent.map((m) => m.request.q)).toEqual(['verify', 'restore-look', 'cancel']);
  timers.shift()!();
  await expect(again).rejects.toMatchObject({ code: 'cancelled' });
  await expect(restoring).rejects.toMatchObject({ code: 'cancelled' });
});

it('nothing under way: there is nothing to cancel, and nothing is started for it', async () => {
  const { client, lines } = bench();
  expect(await client.ask({ q: 'cancel' })).toBeNull();
  expect(lines).toEqual([]);
});
