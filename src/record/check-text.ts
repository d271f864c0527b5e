/**
 * CHECK.txt: how to check a record by hand. The commands are a part of the file format; the words between them are
 * the record's own language, so that a verifier makes the same text again.
 */
import type { Wording } from '../job/wording.ts';
import type { Manifest } from './manifest.ts';
import { groupFingerprint } from './signing.ts';

/** Paragraphs of whole lines, broken where they stand: the text is read in a terminal. */
export interface CheckWords {
  readonly title: string;
  intro(runId: string): string;
  readonly manifest: string;
  readonly key: string;
  readonly names: string;
  readonly pages: string;
  readonly files: string;
  readonly others: string;
  readonly additions: string;
  readonly additionNames: string;
  readonly shows: string;
}

/** Rejects for a language that this program has not. */
export type CheckWordsOf = (wording: Wording) => Promise<CheckWords>;

export function checkText(manifest: Manifest, words: CheckWords): string {
  const { fingerprint } = manifest.signer;
  return `${words.title}

${words.intro(manifest.runId)}

1. ${words.manifest}

   openssl pkeyutl -verify -pubin -inkey signer.pem -rawin -in manifest.json -sigfile manifest.sig

2. ${words.key}

   openssl pkey -pubin -in signer.pem -outform DER | sha256sum

   ${words.names}
   ${groupFingerprint(fingerprint)}
   ${fingerprint}

3. ${words.pages}

   grep -c "\\"pagesSha256\\":\\"$(sha256sum < pages.bin | cut -c 1-64)\\"" manifest.json

4. ${words.files}

   openssl pkeyutl -verify -pubin -inkey signer.pem -rawin -in SHA256SUMS -sigfile SHA256SUMS.sig
   sha256sum -c SHA256SUMS

5. ${words.others}

   ls -A | grep -v -x -F -e SHA256SUMS -e SHA256SUMS.sig -e additions -e "$(cut -c 67- SHA256SUMS)"

6. ${words.additions}

   openssl pkeyutl -verify -pubin -inkey additions/0001.pem -rawin -in additions/0001.json -sigfile additions/0001.sig
   openssl pkey -pubin -in additions/0001.pem -outform DER | sha256sum

   ${words.additionNames}

   grep -c "\\"fingerprint\\":\\"$(openssl pkey -pubin -in additions/0001.pem -outform DER | sha256sum | cut -c 1-64)\\"" additions/0001.json
   grep -c "\\"manifestSha256\\":\\"$(sha256sum < manifest.json | cut -c 1-64)\\"" additions/0001.json
   grep -c "\\"previousSha256\\":\\"$(sha256sum < manifest.json | cut -c 1-64)\\"" additions/0001.json
   ls -A additions | grep -v -x -E "[0-9]{4}\\.(json|sig|pem)"

${words.shows}
`;
}
