import { beforeAll, describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { BACKUP_FILE, BACKUP_SCHEMA, documentLine, README } from '../../record/backup.ts';
import { sealedOf } from '../../record/seal.ts';
import { unzip, zipBytes } from '../../record/testing/zips.ts';
import { createOffice } from '../testing/office.ts';
import { PLAIN_CHOICE } from './messages.ts';
import { blobOf, rewritten, sha } from './testing/rewritten.ts';

type Office = ReturnType<typeof createOffice>;
const MINE = PLAIN_CHOICE;
const BOTH = { ...PLAIN_CHOICE, differing: 'both' } as const;

const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());

async function restore(office: Office, file: Blob, choice = MINE) {
  const look = await office.ask({ q: 'restore-look', file });
  const done = await office.ask({ q: 'restore', file, token: look.token, choice });
  return { look, done };
}

const everything = async (office: Office) => {
  const out: Record<string, unknown> = {};
  for (const kind of ['job', 'packer', 'resin', 'sensor', 'settings', 'run', 'seal', 'review'] as const)
    for (const d of await office.documents.list(kind))
      if (!d.id.startsWith('label-')) out[`${kind}/${d.id}`] = d.body;
  for (const { name } of await office.files.list())
    if (/\.run$|^import-/.test(name)) out[name] = await sha(await office.files.readAll(name));
  return out;
};

let there: Office;
let runId: string;
let backup: Blob;
let groups: Readonly<Record<string, number>>;
let backupBytes: Uint8Array;

beforeAll(async () => {
  there = createOffice();
  await there.keepJob();
  runId = await there.record({ holdS: 5 });
  await there.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  await there.ask({
    q: 'set-status',
    ref: { kind: 'run', runId },
    status: 'released',
    reason: 'a test',
    by: 'ab',
  });
  const { file } = await there.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  const { sha256 } = await there.ask({ q: 'verify', file, name: 'copy.zip' });
  await there.ask({ q: 'keep-opened', sha256 });
  const made = await there.ask({ q: 'backup' });
  backup = made.file;
  groups = made.groups;
  backupBytes = await bytesOf(backup);
  expect(made.name).toMatch(/^steadybar-backup_2026-04-14-\d\d-\d\d\.zip$/);
}, 60_000);

describe('a backup', () => {
  it('is an open zip with sums of every member, and holds no private key', async () => {
    const { members, fault } = await unzip(backupBytes);
    expect(fault).toBeNull();
    const by = new Map(members.map((m) => [m.name, m.bytes]));
    expect(new TextDecoder().decode(by.get(BACKUP_FILE.readme)!)).toBe(README);
    const sums = new TextDecoder().decode(by.get(BACKUP_FILE.sums)!).trimEnd().split('\n');
    for (const line of sums) expect(await sha(by.get(line.slice(66))!)).toBe(line.slice(0, 64));
    expect(sums).toHaveLength(members.length - 2);
    expect(new TextDecoder().decode(by.get(BACKUP_FILE.documents)!)).not.toContain('privateKey');
    expect(JSON.parse(new TextDecoder().decode(by.get(BACKUP_FILE.manifest)!))).toMatchObject({
      schema: BACKUP_SCHEMA,
      files: 2,
      leftOut: [],
    });
  });

  it('leaves a run without an end out and says so', async () => {
    const office = createOffice();
    await office.keepJob();
    const open = await office.record({ holdS: 1, end: false });
    const made = await office.ask({ q: 'backup' });
    expect(made.leftOut).toEqual([open]);
    expect(made.groups).toMatchObject({ run: 0, job: 1 });
  });
});

describe('restored elsewhere', () => {
  it('everything is the same, and a key of its own is made and told', async () => {
    const here = createOffice();
    const { look, done } = await restore(here, backup);
    expect(look.counts.run).toMatchObject({ new: 1, differs: 0, refused: 0 });
    expect(look.counts.import.new).toBe(1);
    // What the backup said of itself is what its restore counts.
    expect(Object.fromEntries(Object.entries(look.counts).map(([g, by]) => [g, by.new]))).toEqual(groups);
    expect(look.lines).toEqual([]);
    expect(look.keyHere).toBe(false);
    expect(await everything(here)).toEqual(await everything(there));
    const keyThere = (await there.ask({ q: 'key' })).key!.fingerprint;
    expect(look.keyThere).toBe(keyThere);
    expect(done.key?.made).toBe(true);
    const key = await here.ask({ q: 'key' });
    expect(key.key?.fingerprint).toBe(done.key?.fingerprint);
    expect(key.key?.fingerprint).not.toBe(keyThere);
    // Nobody vouched for the key of that tablet: the record came, and its signer is not known here.
    expect(key.key?.previous).toBeNull();
    expect(await here.bench.ask({ q: 'runs' })).toEqual(await there.bench.ask({ q: 'runs' }));
    // The file that is built is handed out, and noted as such.
    const { file } = await here.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    const v = await here.ask({ q: 'verify', file, name: 'x' });
    expect([v.verdict, v.fingerprint]).toEqual(['unknown-signer', keyThere]);
  });

  it('a key counts by its own tick: the record is as good as it was, and the new key names the old', async () => {
    const here = createOffice();
    const keyThere = (await there.ask({ q: 'key' })).key!.fingerprint;
    await restore(here, backup, { ...MINE, own: [keyThere] });
    const key = await here.ask({ q: 'key' });
    expect(key.key?.previous).toMatchObject({ fingerprint: keyThere, reason: 'lost' });
    const { file } = await here.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    expect((await here.ask({ q: 'verify', file, name: 'x' })).verdict).toBe('valid');
    expect((await here.ask({ q: 'restore-look', file: backup })).keys).toEqual([
      expect.objectContaining({ role: 'own', fingerprint: keyThere, here: true, seals: 1 }),
    ]);
  });

  it('twice changes nothing the second time', async () => {
    const here = createOffice();
    await restore(here, backup);
    const before = await everything(here);
    const { look, done } = await restore(here, backup, BOTH);
    expect(done).toMatchObject({ documents: 0, files: 0, keptBoth: 0 });
    expect(look.counts.run.same).toBe(1);
    expect(await everything(here)).toEqual(before);
  });

  it('what differs stays as it is, or both are kept, as was chosen; the job follows its papers', async () => {
    const [packer] = await there.documents.list('packer');
    for (const choice of [MINE, BOTH]) {
      const here = createOffice();
      const mine = { ...(packer!.body as object), name: 'Another packer of this name' };
      await here.documents.put({ ...packer!, revision: 0, body: mine });
      const { look, done } = await restore(here, backup, choice);
      expect(look.lines).toEqual([
        expect.objectContaining({ group: 'packer', id: packer!.id, fate: 'differs' }),
      ]);
      expect((await here.documents.get('packer', packer!.id))?.body).toEqual(mine);
      const packers = await here.documents.list('packer');
      const [job] = await here.documents.list('job');
      if (choice === MINE) {
        expect(packers).toHaveLength(1);
        continue;
      }
      expect(done.keptBoth).toBe(1);
      const other = packers.find((p) => p.id !== packer!.id)!;
      expect(other.body).toEqual(packer!.body);
      const jobThere = (await there.documents.list('job'))[0]!.body as { packerId: string };
      if (jobThere.packerId === packer!.id)
        expect((job!.body as { packerId: string }).packerId).toBe(other.id);
      const again = await restore(here, backup, choice);
      expect(again.done.keptBoth + again.done.documents).toBeGreaterThan(0);
      expect(await here.documents.list('packer')).toHaveLength(2);
    }
  });

  it('another run of the same id is kept beside it, never over it', async () => {
    const here = createOffice();
    await here.keepJob();
    const mine = await here.record({ holdS: 2 });
    expect(mine).toBe(runId);
    const before = await here.files.readAll(`${mine}.run`);
    const { look } = await restore(here, backup, BOTH);
    expect(look.counts.run.differs).toBe(1);
    expect(await here.files.readAll(`${mine}.run`)).toEqual(before);
    const runs = await here.bench.ask({ q: 'runs' });
    expect(runs).toHaveLength(2);
    const other = runs.find((r) => r.runId !== mine)!;
    expect(await sha(await here.files.readAll(`${other.runId}.run`))).toBe(
      await sha(await there.files.readAll(`${runId}.run`)),
    );
    expect((await here.ask({ q: 'run', runId: other.runId })).events.length).toBeGreaterThan(5);
  });

  it('what only grew: additions by a key that was ticked, decisions where they were asked for', async () => {
    const here = createOffice();
    const additions = async () => sealedOf((await here.documents.get('seal', runId))?.body)?.additions.length;
    const statuses = async () => (await here.ask({ q: 'statuses', ref: { kind: 'run', runId } })).length;
    await restore(here, backup);
    expect([await additions(), await statuses()]).toEqual([0, 1]);
    await there.ask({ q: 'add', runId, kind: 'note', text: 'later', by: 'ab' });
    await there.ask({ q: 'set-status', ref: { kind: 'run', runId }, status: 'open', reason: '', by: 'cd' });
    const newer = (await there.ask({ q: 'backup' })).file;
    const { look } = await restore(here, newer);
    expect([look.counts.run.same, look.counts.addition.grows, look.counts.review.grows]).toEqual([1, 1, 1]);
    expect([await additions(), await statuses()]).toEqual([0, 1]);
    const own = [look.keyThere!];
    await restore(here, newer, { ...MINE, additions: false, own });
    expect(await additions()).toBe(0);
    await restore(here, newer, { ...MINE, decisions: true });
    expect([await additions(), await statuses()]).toEqual([1, 2]);
    // The older backup takes nothing of it away.
    const back = await restore(here, backup, { ...MINE, decisions: true });
    expect([back.look.counts.run.same, back.look.counts.review.same]).toEqual([1, 1]);
    expect([await additions(), await statuses()]).toEqual([1, 2]);
  });

  it('settings are only exchanged when that is chosen', async () => {
    const here = createOffice();
    const body = { ...(await import('../../job/settings-defaults.ts')).defaultSettings(), firm: 'theirs' };
    const line = documentLine({ kind: 'settings', id: 'settings', savedUtcMs: 1, body });
    const file = await rewritten(backupBytes, (lines) => [...lines, line.trimEnd()]);
    await here.documents.put({
      kind: 'settings',
      id: 'settings',
      revision: 0,
      savedUtcMs: 1,
      body: { ...body, firm: 'mine' },
    });
    const firm = async () =>
      ((await here.documents.get('settings', 'settings'))!.body as { firm: string }).firm;
    await restore(here, file, BOTH);
    expect(await firm()).toBe('mine');
    await restore(here, file, { ...MINE, settings: true });
    expect(await firm()).toBe('theirs');
  });
});

describe('what is refused', () => {
  it('a byte changed or cut anywhere: nothing is written', async () => {
    const here = createOffice();
    for (let i = 0; i < 40; i++) {
      const at = Math.floor((backupBytes.length * (i + 0.5)) / 40);
      const bad = backupBytes.slice();
      bad[at]! ^= 1 << (i % 8);
      await expect(here.ask({ q: 'restore-look', file: blobOf(bad) }), `byte ${at}`).rejects.toMatchObject({
        code: expect.stringMatching(/^(backup-damaged|not-a-backup)$/),
      });
      const cut = here.ask({ q: 'restore-look', file: blobOf(backupBytes.slice(0, at)) });
      await expect(cut).rejects.toMatchObject({ code: 'backup-damaged' });
    }
    expect(await everything(here)).toEqual({});
  });

  it('files that are no backup, and backups of a later version', async () => {
    const here = createOffice();
    const look = (bytes: Uint8Array) => here.ask({ q: 'restore-look', file: blobOf(bytes) });
    const utf8 = new TextEncoder();
    await expect(look(new Uint8Array(0))).rejects.toMatchObject({ code: 'not-a-backup' });
    await expect(look(utf8.encode('<html>'))).rejects.toMatchObject({ code: 'not-a-backup' });
    const other = zipBytes([{ name: 'a.txt', bytes: utf8.encode('x') }]);
    await expect(look(other)).rejects.toMatchObject({ code: 'not-a-backup' });
    const later = zipBytes([
      { name: BACKUP_FILE.manifest, bytes: utf8.encode('{"schema":"steadybar-backup/2"}') },
    ]);
    await expect(look(later)).rejects.toMatchObject({ code: 'backup-future' });
    // A path in a name, and a compressed member, by hand in the header.
    const path = backupBytes.slice();
    path.set(utf8.encode('../ME.txt'), 30);
    await expect(look(path)).rejects.toMatchObject({ code: 'not-a-backup' });
    const packed = backupBytes.slice();
    packed[8] = 8;
    await expect(look(packed)).rejects.toMatchObject({ code: 'not-a-backup' });
  });

  it('documents of wrong types, later versions, other kinds; the others are restored', async () => {
    const here = createOffice();
    const [job] = await there.documents.list('job');
    const line = (d: { id?: string; kind?: 'key' | 'run'; body?: unknown }) =>
      documentLine({ kind: 'job', id: 'x', savedUtcMs: 1, body: job!.body, ...d }).trimEnd();
    const file = await rewritten(backupBytes, (lines) => [
      ...lines,
      line({ id: 'later', body: { ...(job!.body as object), version: 99 } }),
      line({ id: 'wrong', body: { version: 1, title: 7 } }),
      line({ id: 'html', body: { ...(job!.body as object), title: '<img src=x onerror=alert(1)>' } }),
      line({ kind: 'key', id: 'signing', body: { privateKey: 'stolen' } }),
      line({ id: '../escape' }),
      'not json',
      line({ kind: 'run', id: 'ghost', body: { title: 'no pages' } }),
    ]);
    const { look } = await restore(here, file);
    expect(look.strangeLines).toBe(3);
    expect(look.lines.map((l) => [l.id, l.why])).toEqual([
      ['later', 'future'],
      ['wrong', 'form'],
      ['ghost', 'file-missing'],
    ]);
    // A title is text, whatever it looks like.
    expect((await here.documents.list('job')).map((j) => j.id).sort()).toEqual(['html', 'job-1']);
    expect((await here.documents.get('key', 'signing'))?.body).not.toHaveProperty('privateKey', 'stolen');
  });

  it('a seal that its key did not sign', async () => {
    const here = createOffice();
    const file = await rewritten(backupBytes, (lines) =>
      lines.map((l) => {
        const d = JSON.parse(l) as { kind: string; id: string; body: { signature: { $bytes: string } } };
        if (d.kind !== 'seal' || d.id.startsWith('import-')) return l;
        const bytes = Uint8Array.from(atob(d.body.signature.$bytes), (c) => c.charCodeAt(0));
        bytes[3]! ^= 1;
        d.body.signature.$bytes = btoa(String.fromCharCode(...bytes));
        return JSON.stringify(d);
      }),
    );
    const { look } = await restore(here, file);
    expect(look.lines.map((l) => [l.id, l.why])).toEqual([[runId, 'signature']]);
    expect(await here.bench.ask({ q: 'runs' })).toEqual([]);
  });

  it('a restore by a summary that is out of date, or while a run is under way', async () => {
    const here = createOffice();
    const { token } = await here.ask({ q: 'restore-look', file: backup });
    await here.keepJob();
    await expect(here.ask({ q: 'restore', file: backup, token, choice: MINE })).rejects.toMatchObject({
      code: 'stale',
    });
    await here.bench.connectRig('practice', 11);
    await here.bench.run(1000);
    const { practiceSetup } = await import('../../engine/testing/bench.ts');
    await here.bench.ask({
      q: 'open-run',
      jobId: null,
      title: 'now',
      practice: true,
      setup: practiceSetup(),
    });
    await expect(here.ask({ q: 'restore', file: backup, token, choice: MINE })).rejects.toMatchObject({
      code: 'run-open',
    });
  });
});

it('a restore that is cancelled has written nothing', async () => {
  const here = createOffice();
  const { token } = await here.ask({ q: 'restore-look', file: backup });
  const going = expect(here.ask({ q: 'restore', file: backup, token, choice: MINE })).rejects.toMatchObject({
    code: 'cancelled',
  });
  await here.ask({ q: 'cancel' });
  await going;
  expect(await everything(here)).toEqual({});
});
