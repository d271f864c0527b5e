import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { PLAIN_CHOICE } from '../backup/messages.ts';
import { createOffice } from '../testing/office.ts';
import { createFakeFolder, type FakeFolder } from './testing/fake-folder.ts';
import { handlesIn } from './testing/handles.ts';

let file: Uint8Array;
let fileName: string;
let folder: FakeFolder;
let there: ReturnType<typeof createOffice>;
let runId: string;

beforeAll(async () => {
  folder = createFakeFolder();
  there = createOffice({ handles: handlesIn() });
  await there.keepJob();
  runId = await there.record({ holdS: 2 });
  await there.ask({ q: 'office-choose', handle: folder });
  await there.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  // Nobody asks for it: it is written beside the answer.
  for (let i = 0; i < 200 && !(folder.files.size === 1 && [...folder.files.keys()][0]!.endsWith('.zip')); i++)
    await new Promise((resolve) => setTimeout(resolve, 50));
  const [first] = [...folder.files];
  fileName = first![0];
  file = first![1].bytes;
}, 60_000);

describe('a sealed job', () => {
  it('goes into the folder by itself, as the file that one would save', async () => {
    const { name, file: blob } = await there.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    expect(fileName).toBe(name);
    expect(file).toEqual(new Uint8Array(await blob.arrayBuffer()));
    await there.ask({ q: 'office-write' });
    expect((await there.ask({ q: 'office' })).waiting).toEqual([]);
  });

  it('waits, with the reason, while the folder is not there; the record itself is not touched', async () => {
    const office = createOffice({ handles: handlesIn() });
    await office.keepJob();
    const run = await office.record({ holdS: 1 });
    const away = createFakeFolder();
    await office.ask({ q: 'office-choose', handle: away });
    const faults = [
      [{ permission: 'prompt' }, 'denied'],
      [{ permission: 'granted', gone: true }, 'missing'],
      [{ gone: false, room: 10 }, 'full'],
    ] as const;
    Object.assign(away, faults[0][0]);
    await office.ask({ q: 'seal', runId: run, wording: PLAIN_WORDING });
    for (const [fault, code] of faults) {
      Object.assign(away, fault);
      const report = await office.ask({ q: 'office-write' });
      expect(report.waiting).toMatchObject([{ runId: run, fault: code }]);
      expect((await office.ask({ q: 'office' })).waiting).toMatchObject([{ runId: run, fault: code }]);
    }
    away.room = Number.POSITIVE_INFINITY;
    const report = await office.ask({ q: 'office-write' });
    expect(report).toMatchObject({ waiting: [], written: [{ runId: run, beside: false }] });
    expect((await office.ask({ q: 'office-list' })).lines).toMatchObject([{ state: 'whole', own: true }]);
  });

  it('with something added is another file beside the first, and that is said', async () => {
    const office = createOffice({ handles: handlesIn() });
    await office.keepJob();
    const run = await office.record({ holdS: 1 });
    const mine = createFakeFolder();
    await office.ask({ q: 'office-choose', handle: mine });
    await office.ask({ q: 'seal', runId: run, wording: PLAIN_WORDING });
    await office.ask({ q: 'office-write' });
    const before = [...mine.files.keys()];
    mine.permission = 'denied';
    await office.ask({ q: 'add', runId: run, kind: 'note', text: 'later', by: 'ab' });
    await office.ask({ q: 'office-write' });
    mine.permission = 'granted';
    const report = await office.ask({ q: 'office-write' });
    expect(report.written).toMatchObject([{ runId: run, beside: true }]);
    expect([...mine.files.keys()]).toEqual([...before, report.written[0]!.name]);
  });
});

describe('what others put there', () => {
  it('is verified before it is believed; what is hostile or broken is named and stops nothing', async () => {
    const office = createOffice({ handles: handlesIn() });
    const shared = createFakeFolder();
    const changed = file.slice();
    changed[file.length >> 1]! ^= 1;
    shared.put('a-good.steadybar.zip', file);
    shared.put('b-changed.steadybar.zip', changed);
    shared.put('c-half.steadybar.zip', file.slice(0, file.length / 3));
    shared.put('d-empty.steadybar.zip', new Uint8Array(0));
    shared.put('e-<img src=x onerror=alert(1)>.zip', new TextEncoder().encode('<html>'));
    shared.put('f-locked.steadybar.zip', file);
    shared.put('notes.txt', new TextEncoder().encode('hello'));
    shared.locked.add('f-locked.steadybar.zip');
    await office.ask({ q: 'office-choose', handle: shared });
    const { lines, more } = await office.ask({ q: 'office-list' });
    expect(more).toBe(0);
    expect(lines.map((l) => [l.name[0], l.state, l.verdict])).toEqual([
      ['a', 'whole', 'unknown-signer'],
      ['b', 'changed', 'changed'],
      ['c', 'incomplete', 'incomplete'],
      ['d', 'incomplete', 'refused'],
      ['e', 'refused', 'refused'],
      ['f', 'unreadable', null],
    ]);
    expect(lines[0]).toMatchObject({ runId, title: 'Crack at 12.4 m', fresh: true, own: false, kept: false });
    expect(lines[1]!.finding).not.toBeNull();

    // Seen, then one that was half synced becomes whole, and the key is known by name.
    await office.ask({ q: 'office-seen' });
    shared.put('c-half.steadybar.zip', file);
    shared.locked.clear();
    const key = (await there.ask({ q: 'key' })).key!.fingerprint;
    await office.ask({ q: 'know-signer', fingerprint: key, name: 'Tablet 1' });
    const again = (await office.ask({ q: 'office-list' })).lines;
    expect(again.map((l) => l.state)).toEqual([
      'whole',
      'changed',
      'whole',
      'incomplete',
      'refused',
      'whole',
    ]);
    // The very bytes were seen under another name.
    expect(again.map((l) => l.fresh)).toEqual([false, false, false, false, false, false]);
    expect(again[0]).toMatchObject({ verdict: 'valid', signer: 'Tablet 1' });

    // Looked into and kept from there: checked once more on the way.
    const blob = await office.ask({ q: 'office-file', name: 'a-good.steadybar.zip' });
    const good = await office.ask({ q: 'verify', file: blob, name: 'a-good.steadybar.zip' });
    await office.ask({ q: 'keep-opened', sha256: good.sha256 });
    expect((await office.ask({ q: 'office-list' })).lines[0]!.kept).toBe(true);
  });

  it('built after its key was gone, without signed sums: whole when all of it derives, else not', async () => {
    const office = createOffice({ handles: handlesIn() });
    const backup = (await there.ask({ q: 'backup' })).file;
    const { token, keyThere } = await office.ask({ q: 'restore-look', file: backup });
    const choice = { ...PLAIN_CHOICE, own: [keyThere!] };
    await office.ask({ q: 'restore', file: backup, token, choice });
    const { file: blob } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    const bare = new Uint8Array(await blob.arrayBuffer());
    expect(bare.length).toBeLessThan(file.length);
    const shared = createFakeFolder();
    shared.put('bare.zip', bare);
    for (const share of [0.2, 0.5, 0.8, 0.95]) {
      const bad = bare.slice();
      bad[Math.floor(bare.length * share)]! ^= 1;
      shared.put(`bad-${share}.zip`, bad);
    }
    await office.ask({ q: 'office-choose', handle: shared });
    const { lines } = await office.ask({ q: 'office-list' });
    expect(lines.map((l) => l.state)).toEqual(['changed', 'changed', 'changed', 'changed', 'whole']);

    // Kept and opened from the archive it is as good as it was when it came.
    const { sha256 } = await office.ask({ q: 'verify', file: blob, name: 'bare.zip' });
    await office.ask({ q: 'keep-opened', sha256 });
    const kept = await office.ask({ q: 'record', ref: { kind: 'import', sha256 } });
    expect(kept.verdict).toBe('valid');
    expect(kept.numbers.peakBar).toBeGreaterThan(1);
  });

  it('can’t be looked at while the folder is away, and that is said', async () => {
    const office = createOffice({ handles: handlesIn() });
    await expect(office.ask({ q: 'office-list' })).rejects.toMatchObject({ code: 'missing' });
    const shared = createFakeFolder();
    await office.ask({ q: 'office-choose', handle: shared });
    expect((await office.ask({ q: 'office-list' })).lines).toEqual([]);
    shared.gone = true;
    await expect(office.ask({ q: 'office-list' })).rejects.toMatchObject({ code: 'missing' });
    shared.permission = 'prompt';
    await expect(office.ask({ q: 'office-list' })).rejects.toMatchObject({ code: 'denied' });
    expect((await office.ask({ q: 'office' })).permission).toBe('prompt');
    expect((await office.ask({ q: 'office-forget' })).folder).toBeNull();
  });
});
