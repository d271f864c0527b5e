import { createPrivateKey, webcrypto } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { groupFingerprint, parseFingerprint } from './fingerprints.ts';
import { fromHex, toHex } from './hex.ts';
import {
  createRecordCrypto,
  fingerprintOf,
  keyOfPem,
  pemOf,
  SigningUnsupported,
  signerOf,
  spkiOf,
} from './signing.ts';

const subtle = webcrypto.subtle as unknown as SubtleCrypto;
const crypto = createRecordCrypto(subtle);

// RFC 8032 section 7.1, tests 1 to 3.
const VECTORS = [
  {
    seed: '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    key: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    message: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
  {
    seed: '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    key: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    message: '72',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    seed: 'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    key: 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    message: 'af82',
    signature:
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  },
];

describe('Ed25519', () => {
  it.each(VECTORS)('signs and verifies as RFC 8032 says: message "$message"', async (v) => {
    const [key, message, signature] = [fromHex(v.key)!, fromHex(v.message)!, fromHex(v.signature)!];
    expect(await crypto.verify(key, message, signature)).toBe(true);
    // PKCS #8 of an Ed25519 key is this prefix and the seed (RFC 8410).
    const pkcs8 = fromHex(`302e020100300506032b657004220420${v.seed}`)!;
    const handle = await subtle.importKey('pkcs8', new Uint8Array(pkcs8), 'Ed25519', false, ['sign']);
    const signer = signerOf(subtle, handle, {
      publicKey: key,
      fingerprint: '',
      sinceUtcMs: 0,
      previous: null,
    });
    expect(toHex(await signer.sign(message))).toBe(v.signature);
    expect(
      createPrivateKey({ key: Buffer.from(pkcs8), format: 'der', type: 'pkcs8' }).asymmetricKeyType,
    ).toBe('ed25519');
  });

  it('refuses another message, another signature, another key, and what is none of them', async () => {
    const v = VECTORS[2]!;
    const [key, message, signature] = [fromHex(v.key)!, fromHex(v.message)!, fromHex(v.signature)!];
    for (let bit = 0; bit < 512; bit += 7) {
      const bad = signature.slice();
      bad[bit >> 3]! ^= 1 << (bit & 7);
      expect(await crypto.verify(key, message, bad)).toBe(false);
    }
    expect(await crypto.verify(key, Uint8Array.of(0xaf, 0x83), signature)).toBe(false);
    expect(await crypto.verify(fromHex(VECTORS[1]!.key)!, message, signature)).toBe(false);
    expect(await crypto.verify(key.slice(1), message, signature)).toBe(false);
    expect(await crypto.verify(new Uint8Array(32).fill(0xff), message, signature)).toBe(false);
    expect(await crypto.verify(key, message, signature.slice(1))).toBe(false);
  });

  it('that the platform does not know is said to be that, never a signature that fails', async () => {
    const none = {
      importKey: () => Promise.reject(new DOMException('Unrecognized name', 'NotSupportedError')),
    } as unknown as SubtleCrypto;
    const v = VECTORS[1]!;
    await expect(
      createRecordCrypto(none).verify(fromHex(v.key)!, fromHex(v.message)!, fromHex(v.signature)!),
    ).rejects.toThrow(SigningUnsupported);
  });

  it('names keys by PEM and fingerprint', async () => {
    const key = fromHex(VECTORS[0]!.key)!;
    // RFC 8410 gives the algorithm's identifier; the prefix of 12 bytes follows from it.
    expect(toHex(spkiOf(key)).startsWith('302a300506032b6570032100')).toBe(true);
    const pem = pemOf(key);
    expect(keyOfPem(pem)).toEqual(key);
    expect(keyOfPem(pem.replace('MC', 'MD'))).toBeNull();
    expect(keyOfPem('')).toBeNull();
    const fingerprint = await fingerprintOf(crypto, key);
    expect(fingerprint).toMatch(/^[0-9a-f]{64}$/);
    expect(parseFingerprint(groupFingerprint(fingerprint))).toBe(fingerprint);
    expect(parseFingerprint('abc')).toBeNull();
    expect(() => spkiOf(key.slice(1))).toThrow(RangeError);
  });
});
