import { describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../job/testing/wording.ts';
import { sealedOf } from '../record/seal.ts';
import { ceilingOf } from './messages.ts';
import { createOffice, JOB_ID } from './testing/office.ts';

const bytesOf = async (blob: Blob) => new Uint8Array(await blob.arrayBuffer());

describe('a run is sealed', () => {
  it('once, with a key made at first need; its file is valid here and unknown elsewhere', async () => {
    const office = createOffice();
    await office.keepJob();
    const runId = await office.record();
    expect((await office.ask({ q: 'key' })).state).toBe('none');
    const done = await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    expect(done.newKey).toBe('first');
    await expect(office.ask({ q: 'seal', runId, wording: PLAIN_WORDING })).rejects.toMatchObject({
      code: 'sealed',
    });
    const key = await office.ask({ q: 'key' });
    expect(key.key?.fingerprint).toBe(done.fingerprint);

    const ref = { kind: 'run', runId } as const;
    const sent = async () =>
      (await office.documents.get('run', runId))?.body as { sealedUtcMs?: number; sentUtcMs?: number };
    expect((await sent()).sentUtcMs).toBeUndefined();
    const { name, file } = await office.ask({ q: 'job-file', ref });
    expect((await sent()).sentUtcMs).toBeGreaterThan(0);
    expect(name).toMatch(/^2026-04-14_Crack-at-12-4-m_\w+\.steadybar\.zip$/);
    const view = await office.ask({ q: 'verify', file, name });
    expect(view.findings).toEqual([]);
    expect(view.verdict).toBe('valid');
    // Every derived file was made again here, the certificate among them, and is the same to the byte.
    expect(view.remarks.map((r) => r.r)).toEqual(['logged', 'no-witness']);

    const client = createOffice();
    const there = await client.ask({ q: 'verify', file, name });
    expect(there.verdict).toBe('unknown-signer');
    await client.ask({ q: 'know-signer', fingerprint: there.fingerprint!, name: 'Crew 4' });
    const again = await client.ask({ q: 'verify', file, name });
    expect([again.verdict, again.signer]).toEqual(['valid', 'Crew 4']);

    // A tab that starts meanwhile sweeps what no import holds: each file is written under its lock.
    const busy = await client.locks.acquire(`import-${again.sha256}`);
    await expect(client.ask({ q: 'keep-opened', sha256: again.sha256 })).rejects.toMatchObject({
      code: 'run-locked',
    });
    busy?.();
    const kept = await client.ask({ q: 'keep-opened', sha256: again.sha256 });
    expect(kept.already).toBe(false);
    expect((await client.ask({ q: 'keep-opened', sha256: again.sha256 })).already).toBe(true);
    // Another page has opened another file since: not that one is kept.
    await client.ask({ q: 'verify', file: new Blob(['no record']), name: 'other.zip' });
    await expect(client.ask({ q: 'keep-opened', sha256: again.sha256 })).rejects.toMatchObject({
      code: 'stale',
    });
    const [entry] = await client.ask({ q: 'archive' });
    expect(entry).toMatchObject({ title: 'Crack at 12.4 m', runId, packer: 'Practice packer 100-150' });
    expect(entry?.sealed?.signer).toBe('Crew 4');
    expect(entry?.peakBar).toBeGreaterThan(1);
    // A label that is gone is made up from the file.
    const label = `label-${there.sha256}`;
    await client.documents.remove('review', label);
    const [relisted] = await client.ask({ q: 'archive' });
    expect(relisted).toEqual(entry);
    expect(await client.documents.get('review', label)).not.toBeNull();
    // Its row rests from then on, until something of it changes.
    expect(await client.ask({ q: 'archive' })).toEqual([entry]);
    const part = await client.documents.get('rows', `import-${there.sha256[0]}`);
    expect((part!.body as { rows: string }).rows).toContain('Crack at 12.4 m');
    await client.ask({
      q: 'set-status',
      ref: entry!.ref,
      status: 'rejected',
      reason: 'Probe was not compared',
      by: 'E.F.',
    });
    const [decided] = await client.ask({ q: 'archive' });
    expect(decided).toMatchObject({ ...entry, status: { status: 'rejected', by: 'E.F.' } });
    const record = await client.ask({ q: 'record', ref: entry!.ref });
    expect(record.verdict).toBe('valid');
    const mine = await office.ask({ q: 'record', ref });
    expect(record.numbers).toEqual(mine.numbers);
    expect(mine.numbers.inBandS).toBeGreaterThan(30);
    expect(mine.numbers.peakBar).toBeGreaterThan(1);
    // In small it is the same on both sides: there from the side files, here from the checked file.
    const [small, told] = [
      await client.ask({ q: 'sketch', ref: entry!.ref }),
      await office.ask({ q: 'sketch', ref }),
    ];
    expect(small).toEqual(told);
    expect(Math.max(...told!.course!.max)).toBeCloseTo(mine.numbers.peakBar ?? 0, 2);
    expect(told!.numbers).toEqual({ ...mine.numbers, coldest: null });
    expect(told!.account).toEqual(mine.account);
    // The file that leaves an archive is the one that came.
    const out = await client.ask({ q: 'job-file', ref: entry!.ref });
    expect(await bytesOf(out.file)).toEqual(await bytesOf(file));
  }, 120_000);

  it('a changed byte of the trace is named: page and time', async () => {
    const office = createOffice();
    await office.keepJob();
    const runId = await office.record();
    await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    const { file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
    const bytes = await bytesOf(file);
    const text = new TextDecoder('latin1').decode(bytes);
    const at = text.indexOf('Sbarpage') + 40_000;
    bytes[at] = bytes[at]! ^ 1;
    const view = await office.ask({ q: 'verify', file: new Blob([bytes]), name: 'x.zip' });
    expect(view.verdict).toBe('changed');
    const found = view.findings.find((f) => f.f === 'pages');
    expect(found).toMatchObject({ f: 'pages', why: 'crc' });
    expect(found?.f === 'pages' && found.fromUs !== null && found.toUs !== null).toBe(true);
    await expect(office.ask({ q: 'keep-opened', sha256: view.sha256 })).rejects.toMatchObject({
      code: 'refused',
    });
  });

  it('of practice verifies as practice and as nothing else, is kept by no archive and goes to no client', async () => {
    const office = createOffice();
    const runId = await office.record({ practice: true });
    await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    const ref = { kind: 'run', runId } as const;
    const { name, file } = await office.ask({ q: 'job-file', ref });
    expect(name).toMatch(/^practice_.*\.steadybar\.zip$/);
    const view = await office.ask({ q: 'verify', file, name });
    expect([view.verdict, view.readable]).toEqual(['practice', true]);
    expect(view.findings).toEqual([{ f: 'practice' }]);
    await expect(office.ask({ q: 'keep-opened', sha256: view.sha256 })).rejects.toMatchObject({
      code: 'refused',
    });
    await expect(office.ask({ q: 'packet', ref })).rejects.toMatchObject({ code: 'practice' });
    const label = (await office.documents.get('run', runId))?.body;
    expect(label).toMatchObject({ sealedUtcMs: expect.any(Number) });
    expect(label).not.toMatchObject({ sentUtcMs: expect.any(Number) });
    // Neither the folder that the tablets share nor the witness log takes notice of it.
    await office.ask({ q: 'office-all' });
    expect((await office.ask({ q: 'office' })).waiting).toEqual([]);
    const { manifest } = sealedOf((await office.documents.get('seal', runId))!.body)!;
    expect(new TextDecoder().decode(manifest)).toMatch(/"log":null.*"schema":"steadybar-practice\/1"/);
  });

  it('never a run that has no end', async () => {
    const other = createOffice();
    const open = await other.record({ end: false });
    await expect(other.ask({ q: 'seal', runId: open, wording: PLAIN_WORDING })).rejects.toMatchObject({
      code: expect.stringMatching(/open|run-locked/),
    });
  });

  it('corrections and statuses are added and nothing is rewritten', async () => {
    const office = createOffice();
    await office.keepJob();
    const runId = await office.record();
    const ref = { kind: 'run', runId } as const;
    await expect(
      office.ask({ q: 'add', runId, kind: 'correction', text: 'Batch is R-7', by: 'A.B.' }),
    ).rejects.toMatchObject({ code: 'not-sealed' });
    await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
    const before = (await office.documents.get('seal', runId))?.body as { manifest: Uint8Array };
    await office.ask({ q: 'sent', runId });
    const label = async () => (await office.documents.get('run', runId))?.body;
    expect(await label()).toMatchObject({ sentUtcMs: expect.any(Number) });
    await office.ask({ q: 'add', runId, kind: 'correction', text: 'Batch is R-7', by: 'A.B.' });
    // What was sent does not hold the correction: it is to be sent again.
    expect(await label()).not.toHaveProperty('sentUtcMs');
    await expect(office.ask({ q: 'add', runId, kind: 'note', text: ' ', by: 'A.B.' })).rejects.toMatchObject({
      code: 'bad-request',
    });
    const status = { q: 'set-status', ref } as const;
    await expect(office.ask({ ...status, status: 'rejected', reason: '', by: 'C.D.' })).rejects.toMatchObject(
      { code: 'bad-request' },
    );
    await office.ask({ ...status, status: 'rejected', reason: 'Peak too high', by: 'C.D.' });
    // Nobody compared the dial gauge, and cure time was not reached: whoever accepts that says why.
    await expect(
      office.ask({ ...status, status: 'released', reason: ' ', by: 'C.D.' }),
    ).rejects.toMatchObject({
      code: 'reason-needed',
    });
    await office.ask({ ...status, status: 'released', reason: 'Seen on the camera', by: 'C.D.' });
    const after = (await office.documents.get('seal', runId))?.body as { manifest: Uint8Array };
    expect(after.manifest).toEqual(before.manifest);
    const view = await office.ask({ q: 'record', ref });
    const statuses = await office.ask({ q: 'statuses', ref });
    expect(statuses.map((s) => s.status)).toEqual(['rejected', 'released']);
    expect(view.sealed?.additions.map((a) => a.body)).toEqual([{ text: 'Batch is R-7', by: 'A.B.' }]);
    const { file, name } = await office.ask({ q: 'job-file', ref });
    const checked = await office.ask({ q: 'verify', file, name });
    expect(checked.verdict).toBe('valid');
    expect(checked.remarks).toContainEqual({ r: 'additions', count: 1 });
    expect(checked.additions).toMatchObject([
      { kind: 'correction', body: { text: 'Batch is R-7', by: 'A.B.' }, signedBy: '' },
    ]);
    const [entry] = await office.ask({ q: 'archive' });
    expect(entry?.status?.status).toBe('released');
    // What the seal holds tells its row too, without the picture.
    const told = await office.ask({ q: 'sketch', ref: { kind: 'run', runId } });
    expect(entry).toMatchObject({ cure: told!.account.cure.state, ceiling: ceilingOf(told!.account) });
  });

  it('a lost key is followed by a new signer that says so', async () => {
    const office = createOffice();
    await office.keepJob();
    const first = await office.record();
    const before = await office.ask({ q: 'seal', runId: first, wording: PLAIN_WORDING });
    await office.documents.remove('key', 'signing');
    expect((await office.ask({ q: 'key' })).state).toBe('lost');
    const second = await office.record();
    const after = await office.ask({ q: 'seal', runId: second, wording: PLAIN_WORDING });
    expect(after.newKey).toBe('after-loss');
    expect(after.fingerprint).not.toBe(before.fingerprint);
    const view = await office.ask({ q: 'record', ref: { kind: 'run', runId: second } });
    expect(view.sealed?.previous).toMatchObject({ fingerprint: before.fingerprint, reason: 'lost' });
    const changed = await office.ask({ q: 'change-key' });
    expect(changed.key?.previous).toMatchObject({ fingerprint: after.fingerprint, reason: 'changed' });
    expect(changed.history).toHaveLength(3);
    // Records of each key stay valid on this tablet, with sums or without.
    for (const runId of [first, second]) {
      const { file, name } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
      const view = await office.ask({ q: 'verify', file, name });
      expect(view.verdict).toBe('valid');
      expect(view.remarks).toContainEqual({ r: 'no-sums' });
    }
  });
});

describe('a record is looked into', () => {
  it('judged again it differs in nothing; laid over another it shares the start of the hold', async () => {
    const office = createOffice();
    await office.keepJob();
    const a = await office.record();
    const b = await office.record({ holdS: 90 });
    await office.ask({ q: 'seal', runId: a, wording: PLAIN_WORDING });
    const judged = await office.ask({ q: 'judge-again', ref: { kind: 'run', runId: a } });
    expect(judged).toMatchObject({ against: 'sealed', gone: [], fresh: [] });
    expect(judged.events).toBeGreaterThan(8);
    const ink = {
      ground: '#fff',
      ink: '#000',
      ink2: '#444',
      line: '#ddd',
      band: '#eee',
      alarm: { urgent: 'red', high: 'orange', low: 'blue' },
    };
    const order = {
      refs: [a, b].map((runId) => ({ kind: 'run', runId }) as const),
      align: 'hold',
      fromS: null,
      toS: null,
      width: 900,
      height: 360,
      wording: PLAIN_WORDING,
      units: { pressure: 'bar', temperature: 'C', length: 'mm' },
      ink,
    } as const;
    const picture = await office.ask({ q: 'picture', order });
    expect(picture.unaligned).toEqual([]);
    expect(picture.wholeFromS).toBeLessThan(-50);
    expect(picture.wholeToS).toBeGreaterThan(100);
    expect(picture.svg.match(/<path d="M[^"]{400,}/g)).toHaveLength(2);
    const csv = await (
      await office.ask({ q: 'visible-data', ref: { kind: 'run', runId: a }, fromS: 10, toS: 20 })
    ).text();
    const rows = csv.trim().split('\r\n');
    expect(rows[0]).toMatch(/^time_s,utc,pressure_bar_lowest,pressure_bar_highest,temperature_c_/);
    expect(rows.length).toBeGreaterThan(150); // 20 Hz
    expect(rows[1]).toMatch(/^10\.?\d*,2026-04-14T/);
    expect(JOB_ID).toBe('job-1');
  });
});
