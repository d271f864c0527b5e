import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toHex } from '../hex.ts';
import { createRecordCrypto, keyOfPem, pemOf } from '../signing.ts';
import { checkpointText, parseCheckpoint } from './checkpoint.ts';
import {
  checkNote,
  cosignedText,
  cosignNote,
  KEY_TYPE,
  type NoteKey,
  noteText,
  parseNote,
  signNote,
} from './note.ts';
import { VECTORS } from './testing/vectors.ts';

const crypto = createRecordCrypto(globalThis.crypto.subtle);
const LOG: NoteKey = {
  name: 'log.steadybar.invalid/tablet-1',
  type: KEY_TYPE.plain,
  publicKey: keyOfPem(VECTORS.logPem)!,
};
const OFFICE: NoteKey = {
  name: 'log.steadybar.invalid/office-1',
  type: KEY_TYPE.cosignature,
  publicKey: keyOfPem(VECTORS.officePem)!,
};

describe('notes made with other tools', () => {
  it('are read, written again byte by byte, and hold by both keys', async () => {
    for (const text of [VECTORS.checkpoint4, VECTORS.checkpoint7]) {
      const note = parseNote(text)!;
      expect(noteText(note)).toBe(text);
      const checkpoint = parseCheckpoint(note.text)!;
      expect(checkpointText(checkpoint)).toBe(note.text);
      expect(toHex(checkpoint.root)).toBe(VECTORS.roots[checkpoint.size]);
    }
    const seven = parseNote(VECTORS.checkpoint7)!;
    const check = await checkNote(crypto, seven, [LOG, OFFICE]);
    // 0x69ddf400 s, as the file's bytes say.
    expect(check).toEqual({
      ok: true,
      held: [
        { key: LOG, timeS: null },
        { key: OFFICE, timeS: 0x69ddf400 },
      ],
    });
  });

  it('a changed text, a changed time, a key of another name or kind: void, or unknown and ignored', async () => {
    const seven = parseNote(VECTORS.checkpoint7)!;
    const changed = { ...seven, text: seven.text.replace('\n7\n', '\n8\n') };
    expect(await checkNote(crypto, changed, [LOG])).toEqual({ ok: false, why: 'signature', name: LOG.name });
    const late = {
      ...seven,
      signatures: seven.signatures.map((s) => {
        const bytes = s.bytes.slice();
        if (s.name === OFFICE.name) bytes[7]! ^= 1;
        return { ...s, bytes };
      }),
    };
    expect(await checkNote(crypto, late, [LOG, OFFICE])).toMatchObject({ ok: false, name: OFFICE.name });
    expect(await checkNote(crypto, late, [LOG])).toMatchObject({ ok: true, held: [{ key: LOG }] });
    expect(await checkNote(crypto, seven, [{ ...LOG, name: 'another' }])).toEqual({ ok: true, held: [] });
    expect(await checkNote(crypto, seven, [{ ...OFFICE, type: KEY_TYPE.plain }])).toEqual({
      ok: true,
      held: [],
    });
    const twice = { ...seven, signatures: [...seven.signatures, seven.signatures[0]!] };
    expect(await checkNote(crypto, twice, [LOG])).toMatchObject({ ok: false, why: 'signature' });
  });
});

async function keyPair() {
  const pair = await globalThis.crypto.subtle.generateKey('Ed25519', true, ['sign', 'verify']);
  const publicKey = new Uint8Array(await globalThis.crypto.subtle.exportKey('raw', pair.publicKey));
  return {
    publicKey,
    sign: async (message: Uint8Array) =>
      new Uint8Array(
        await globalThis.crypto.subtle.sign('Ed25519', pair.privateKey, message as BufferSource),
      ),
  };
}

it('what is signed here holds by openssl', async () => {
  const text = checkpointText({
    origin: 'log.steadybar.invalid/x',
    size: 3,
    root: new Uint8Array(32).fill(7),
  });
  const [log, office] = [await keyPair(), await keyPair()];
  const timeS = 1_800_000_000;
  const signatures = [
    await signNote(crypto.hashing, 'x', log, text),
    await cosignNote(crypto.hashing, 'o', office, text, timeS),
  ];
  const note = parseNote(noteText({ text, signatures }))!;
  const keys: NoteKey[] = [
    { name: 'x', type: KEY_TYPE.plain, publicKey: log.publicKey },
    { name: 'o', type: KEY_TYPE.cosignature, publicKey: office.publicKey },
  ];
  expect(await checkNote(crypto, note, keys)).toMatchObject({ ok: true, held: [{ timeS: null }, { timeS }] });
  const dir = mkdtempSync(join(tmpdir(), 'note-'));
  try {
    const verified = (publicKey: Uint8Array, message: Uint8Array, signature: Uint8Array): string => {
      writeFileSync(join(dir, 'key.pem'), pemOf(publicKey));
      writeFileSync(join(dir, 'text'), message);
      writeFileSync(join(dir, 'sig'), signature);
      const ask = [
        'pkeyutl',
        '-verify',
        '-pubin',
        '-inkey',
        'key.pem',
        '-rawin',
        '-in',
        'text',
        '-sigfile',
        'sig',
      ];
      return execFileSync('openssl', ask, { cwd: dir, encoding: 'utf8' });
    };
    const bytes = new TextEncoder().encode(text);
    expect(verified(log.publicKey, bytes, note.signatures[0]!.bytes)).toContain('Verified Successfully');
    const cosigned = note.signatures[1]!.bytes.slice(8);
    expect(verified(office.publicKey, cosignedText(text, timeS), cosigned)).toContain(
      'Verified Successfully',
    );
  } finally {
    rmSync(dir, { recursive: true });
  }
});

describe('what is no note, and no checkpoint', () => {
  const good = VECTORS.checkpoint7;
  it.each([
    ['nothing', ''],
    ['no empty line', good.replace('\n\n', '\n')],
    ['no signature', `${good.slice(0, good.indexOf('\n\n'))}\n\n`],
    ['no line feed at the end', good.slice(0, -1)],
    ['another dash', good.replaceAll('\u2014', '-')],
    ['a carriage return', good.replace('\n7\n', '\r\n7\r\n')],
    ['base64 cut short', good.replace(/=\n$/, '\n')],
    ['too long', `${'a'.repeat(200_000)}\n\n${good}`],
    ['too many signatures', good + good.slice(good.lastIndexOf('\u2014')).repeat(200)],
  ])('%s', (_, text) => {
    expect(parseNote(text)).toBeNull();
  });

  it.each([
    ['a size with a sign', 'x\n+7\nAAAA\n'],
    ['a size with a zero before it', 'x\n07\n8S/BRWMXpUM4BSdc3DkD6n9qhs8zMFtuMEd+3WxfWWM=\n'],
    ['a size that no log has', 'x\n9999999999\n8S/BRWMXpUM4BSdc3DkD6n9qhs8zMFtuMEd+3WxfWWM=\n'],
    ['a short root', 'x\n7\nAAAA\n'],
    ['no origin', '\n7\n8S/BRWMXpUM4BSdc3DkD6n9qhs8zMFtuMEd+3WxfWWM=\n'],
    ['no root', 'x\n7\n'],
  ])('%s', (_, text) => {
    expect(parseCheckpoint(text)).toBeNull();
  });

  it('lines of extension are let pass', () => {
    expect(parseCheckpoint(`${parseNote(good)!.text}more\n`)?.size).toBe(7);
  });

  it('any text: read and written again it is the same, or it is none', () => {
    const line = fc.string({ maxLength: 60 });
    fc.assert(
      fc.property(
        fc.array(fc.oneof(line, fc.constantFrom(...good.split('\n'))), { maxLength: 12 }),
        (lines) => {
          const text = lines.join('\n');
          const note = parseNote(text);
          if (note !== null) expect(noteText(note)).toBe(text);
          const checkpoint = parseCheckpoint(text);
          if (checkpoint !== null) expect(text.startsWith(checkpointText(checkpoint))).toBe(true);
        },
      ),
      { seed: 41, numRuns: 2000 },
    );
  });
});
