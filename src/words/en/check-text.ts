import type { CheckWords } from '../../record/check-text.ts';

/** CHECK.txt: at most 100 columns, lines of a numbered paragraph set in by three. */
export const CHECK_TEXT: CheckWords = {
  title: 'HOW TO CHECK THIS RECORD BY HAND',
  intro: (runId) => `This file holds the record of one run: ${runId}
Nothing but openssl (3.0 or later), sha256sum and grep is needed. Unpack the file, then run the
commands below in the folder that holds manifest.json.`,
  manifest: 'Is the manifest as it was signed? It must say: Signature Verified Successfully',
  key: `Whose key is it? Ask the firm that made the record for the fingerprint of its key, by another
   way than the one this file came by. This must print the same:`,
  names: 'This record names the key',
  pages: 'Are the pages of the trace those that were signed? This must print 1:',
  files: `Are the other files those that were made with it? Both must succeed; where SHA256SUMS is
   missing, they can only be checked by a program that makes them again from pages.bin:`,
  additions: `Each addition made after the sealing is signed by itself, with the number of the addition in
   place of 0001. The text names the SHA-256 of manifest.json (manifestSha256) and of the addition
   before it (previousSha256):`,
  shows: `What a successful check shows: that the holder of the key signed exactly these bytes. What it does
not show: where the sensor was, what the clock of the tablet was set to, which pipe was repaired.`,
};
