/**
 * CHECK.txt: how to check a record by hand. Part of the file format, in one fixed wording that a verifier makes
 * again, and therefore not translated.
 */
import type { Manifest } from './manifest.ts';
import { groupFingerprint } from './signing.ts';

export function checkText(manifest: Manifest): string {
  const fingerprint = manifest.signer.fingerprint;
  return `HOW TO CHECK THIS RECORD BY HAND

This file holds the record of one run: ${manifest.runId}
Nothing but openssl (3.0 or later), sha256sum and grep is needed. Unpack the file, then run the
commands below in the folder that holds manifest.json.

1. Is the manifest as it was signed? It must say: Signature Verified Successfully

   openssl pkeyutl -verify -pubin -inkey signer.pem -rawin -in manifest.json -sigfile manifest.sig

2. Whose key is it? Ask the firm that made the record for the fingerprint of its key, by another
   way than the one this file came by. This must print the same:

   openssl pkey -pubin -in signer.pem -outform DER | sha256sum

   This record names the key
   ${groupFingerprint(fingerprint)}
   ${fingerprint}

3. Are the pages of the trace those that were signed? This must print 1:

   grep -c "\\"pagesSha256\\":\\"$(sha256sum < pages.bin | cut -c 1-64)\\"" manifest.json

4. Are the other files those that were made with it? Both must succeed; where SHA256SUMS is
   missing, they can only be checked by a program that makes them again from pages.bin:

   openssl pkeyutl -verify -pubin -inkey signer.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig
   sha256sum -c SHA256SUMS

5. Each addition made after the sealing is signed by itself, with the number of the addition in
   place of 0001. The text names the SHA-256 of manifest.json (manifestSha256) and of the addition
   before it (previousSha256):

   openssl pkeyutl -verify -pubin -inkey additions/0001.pem -rawin -in additions/0001.json -sigfile additions/0001.sig

What a successful check shows: that the holder of the key signed exactly these bytes. What it does
not show: where the sensor was, what the clock of the tablet was set to, which pipe was repaired.
`;
}
