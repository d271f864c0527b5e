import type { CheckWords } from '../../record/check-text.ts';

/** CHECK.txt: at most 100 columns, lines of a numbered paragraph set in by three. */
export const CHECK_TEXT: CheckWords = {
  title: 'HOW TO CHECK THIS RECORD BY HAND',
  intro: (runId) => `This file holds the record of one run: ${runId}
Nothing but openssl (3.0 or later), sha256sum and grep is needed. Unpack the file, then run the
commands below in the folder that holds manifest.json.`,
  practice: `PRACTICE. This is a practice record: it was recorded on the practice rig, and is no record of a job.
What the commands below show of it is that nobody changed it.`,
  manifest: 'Is the manifest as it was signed? It must say: Signature Verified Successfully',
  key: `Whose key is it? Ask the firm that made the record for the fingerprint of its key, by another
   way than the one this file came by. This must print the same, or nothing else here counts:`,
  names: 'This record names the key',
  pages: 'Are the pages of the trace those that were signed? This must print 1:',
  files: `Are the other files those that were made with it? Both must succeed; where SHA256SUMS is
   missing, they can only be checked by a program that makes them again from pages.bin:`,
  others: `Is there a file that is no part of the record? This must print nothing; where SHA256SUMS is
   missing, only the files of steps 1 to 3 are known to belong to it:`,
  additions: `Each addition made after the sealing is signed by itself, by a key of its own: put its number in
   place of 0001. The second command prints the fingerprint of that key; ask whose it is as in step 2:
   an addition by a key that nobody answers for says nothing:`,
  additionNames: `Each of these must print 1: the text names that key, this record, and what it follows. In the
   third, of number 0002 and on, put the addition before it, additions/0001.json, in place of
   manifest.json, so that none is missing and none changed places. The last must print nothing:`,
  witness: `What does the witness log of the computer say of it, and who has seen that log? Nothing may be printed
   by the first line; save the others as a file elsewhere, run it with sh here (xxd, base64, sed, date):`,
  witnessKeys: `It must say "Signature Verified Successfully" for each checkpoint and each witness, and no line of it
   may be in capitals. In the leaves, "at" is a time of the computer's clock in ms since 1970. What counts
   is the time of a witness: ask whose key it is by its fingerprint, and how many witnesses there are.
   The run is from after seen.txt, which its first page names; after.txt holds the sealed record. A
   photographed checkpoint is compared where its text is a file, named behind the script. A stamp.tsr is
   checked with: openssl ts -verify -data witness/stamped.txt -in witness/stamp.tsr -CAfile THEIRS.pem`,
  shows: `What a successful check shows: that the holder of the key signed exactly these bytes. What it does
not show: where the sensor was, what the clock of the computer was set to, which pipe was repaired.`,
};
