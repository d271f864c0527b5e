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
  const first = client.ask({ q: 'verify', file: FILE, name: '' });
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

it('nothing under way: there is nothing to cancel, and nothing is started for it', async () => {
  const { client, lines } = bench();
  expect(await client.ask({ q: 'cancel' })).toBeNull();
  expect(lines).toEqual([]);
});
