/**
 * CHECK.txt: how to check a record by hand. The commands are a part of the file format; the words between them are
 * the record's own language, so that a verifier makes the same text again.
 */
import type { Wording } from '../job/wording.ts';
import { groupFingerprint } from './fingerprints.ts';
import type { Manifest } from './manifest.ts';

/** Paragraphs of whole lines, broken where they stand: the text is read in a terminal. */
export interface CheckWords {
  readonly title: string;
  intro(runId: string): string;
  /** Before all of it, where it is no job's record. */
  readonly practice: string;
  readonly manifest: string;
  readonly key: string;
  readonly names: string;
  readonly pages: string;
  readonly files: string;
  readonly others: string;
  readonly additions: string;
  readonly additionNames: string;
  /** Before the lines that check the witness log. */
  readonly witness: string;
  readonly witnessKeys: string;
  readonly shows: string;
}

/** Rejects for a language that this program has not. */
export type CheckWordsOf = (wording: Wording) => Promise<CheckWords>;

/**
 * The witness log by hand: openssl 3, sha256sum, xxd, base64, sed. The walk from a leaf to the root is that of RFC 9162,
 * 2.1.3.2. In the folder that holds manifest.json.
 */
export const WITNESS_SCRIPT = String.raw`cd witness; t=$(mktemp -d)
[ -z "$1" ] || (cd .. && cat "$1") | tr -d '\r' > $t/photo.txt
h() { xxd -r -p | sha256sum | cut -c 1-64; }
body() { sed '/^$/,$d' "$1"; }
print() { openssl pkey -pubin -in "$1" -outform DER | sha256sum | cut -c 1-64; }
signed() { openssl pkeyutl -verify -pubin -inkey "$1" -rawin -in $t/body -sigfile $t/sig; }
key=$(openssl pkey -pubin -in log.pem -outform DER | tail -c 32 | xxd -p -c 32)
grep -q "\"log\":{[^}]*\"publicKey\":\"$key\"" ../manifest.json && echo "the log's key" || echo "ANOTHER LOG'S KEY"
for c in before.txt after.txt $t/photo.txt; do
  [ -e $c ] || continue
  body $c > $t/body; sed -n 's/^— log[^ ]* //p' $c | base64 -d | tail -c 64 > $t/sig
  signed log.pem || echo "$c: NOT SIGNED BY THE LOG"
done
root=$(sed -n 3p after.txt | base64 -d | xxd -p -c 64); size=$(sed -n 2p after.txt); : > $t/leaves
while read -r i leaf path || [ -n "$i" ]; do
  at=$i; x=$(printf 00%s "$(printf %s "$leaf" | xxd -p | tr -d '\n')" | h); n=$((size - 1))
  for p in $path; do
    if [ $((i % 2)) = 1 ] || [ $i = $n ]; then
      x=$(printf 01$p$x | h); while [ $((i % 2)) = 0 ] && [ $i != 0 ]; do i=$((i / 2)); n=$((n / 2)); done
    else x=$(printf 01$x$p | h); fi
    i=$((i / 2)); n=$((n / 2))
  done
  if [ $x = $root ]; then echo "in the log: $leaf"; echo "$at $leaf" >> $t/leaves; else echo "NOT IN THE LOG: $leaf"; fi
done < leaves.txt
echo "$size $root" > $t/trees
while read -r m old path || [ -n "$m" ]; do
  if [ $m -le $size ]; then f=$m; n=$size; a=$old; b=$root; else f=$size; n=$m; a=$root; b=$old; fi
  [ $((f & (f - 1))) != 0 ] || path="$a $path"
  f=$((f - 1)); n=$((n - 1)); while [ $((f % 2)) = 1 ]; do f=$((f / 2)); n=$((n / 2)); done
  x=; y=
  for p in $path; do
    if [ -z "$x" ]; then x=$p; y=$p; continue; fi
    if [ $((f % 2)) = 1 ] || [ $f = $n ]; then
      x=$(printf 01$p$x | h); y=$(printf 01$p$y | h)
      while [ $((f % 2)) = 0 ] && [ $f != 0 ]; do f=$((f / 2)); n=$((n / 2)); done
    else y=$(printf 01$y$p | h); fi
    f=$((f / 2)); n=$((n / 2))
  done
  [ "$x" != $a ] || [ "$y" != $b ] || [ $n != 0 ] || echo "$m $old" >> $t/trees
  [ $m != 0 ] || [ $old != $(: | h) ] || echo "$m $old" >> $t/trees
done < trees.txt
for c in before.txt $t/photo.txt; do
  [ -e $c ] || continue
  grep -q -x "$(sed -n 2p $c) $(sed -n 3p $c | base64 -d | xxd -p -c 64)" $t/trees &&
    echo "$c: one history with after.txt" || echo "$c: NOT PROVED TO BE ONE HISTORY WITH AFTER.TXT"
done
found() { if grep -q "$1" $t/leaves; then echo "$2"; else echo "$3"; fi; }
found "\"manifest\":\"$(sha256sum < ../manifest.json | cut -c 1-64)\"" "this record" "ANOTHER RECORD"
found "\"head\":\"$(grep -o '"chainHead":"[^"]*"' ../manifest.json | cut -d '"' -f 4)\"" "its last page" "ANOTHER LAST PAGE"
run=$(grep -o '"runId":"[^"]*"' ../manifest.json | head -n 1 | cut -d '"' -f 4 | tr -d '\n' | sha256sum | cut -c 1-64)
grep '"run":' $t/leaves | grep -v "\"run\":\"$run\"" | sed 's/^/ANOTHER RUN: /'
for a in $(grep -o '"addition":"[^"]*"' $t/leaves | cut -d '"' -f 4); do
  sha256sum ../additions/*.json | grep -q $a && echo "an addition, as it was logged" || echo "AN ADDITION WAS TAKEN OUT OR CHANGED: $a"
done
[ "$(grep -m 1 '"run":' $t/leaves | cut -d ' ' -f 1)" -eq $(sed -n 2p before.txt) ] || echo "BEFORE.TXT IS NOT FROM RIGHT BEFORE THE RUN"
if [ -e seen.txt ]; then
  seen=$(sha256sum < seen.txt | cut -c 1-64); found "\"sha256\":\"$seen\"" "what was seen before" "SEEN.TXT IS NOT IN THE LOG"
  head -c $(head -c 16 ../pages.bin | tail -c 4 | od -A n -t u4 --endian=little) ../pages.bin | grep -a -q "\"seen\":\"$seen\"" &&
    echo "the first page names it" || echo "THE FIRST PAGE IS NOT PROVED TO BE FROM AFTER SEEN.TXT"
fi
for c in seen after; do w=0; for k in $(ls *.pem | grep -v log | cut -d . -f 1); do
  [ -e $c.txt ] && sed -n "s,^— witness[^ ]*/$k ,,p" $c.txt | base64 -d > $t/line && [ -s $t/line ] || continue
  s=$(printf %d 0x$(head -c 12 $t/line | tail -c 8 | xxd -p)); tail -c 64 $t/line > $t/sig
  { printf 'cosignature/v1\ntime %s\n' $s; body $c.txt; } > $t/body
  if signed $k.pem; then w=$((w + 1)); date -u -d @$s "+$c.txt was seen at %FT%TZ by $(print $k.pem)"; else echo "$c.txt: NOT SEEN BY $k"; fi
done; echo "$c.txt: $w witnesses"; done`;

const indented = (script: string): string =>
  script
    .split('\n')
    .map((line) => `       ${line}`)
    .join('\n');

/** The step on the witness log; empty for a record that is noted in none. */
const witnessStep = (manifest: Manifest, words: CheckWords): string =>
  manifest.log === null
    ? ''
    : `7. ${words.witness}

   ls -A witness | sed s,^,witness/, | grep -v -x -F -e "$(cut -c 67- SHA256SUMS)"

${indented(WITNESS_SCRIPT)}

   ${words.witnessKeys}

`;

export function checkText(manifest: Manifest, words: CheckWords): string {
  const { fingerprint } = manifest.signer;
  return `${words.title}
${manifest.practice ? `\n${words.practice}\n` : ''}
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

   ls -A | grep -v -x -F -e SHA256SUMS -e SHA256SUMS.sig -e additions -e witness -e "$(cut -c 67- SHA256SUMS)"

6. ${words.additions}

   openssl pkeyutl -verify -pubin -inkey additions/0001.pem -rawin -in additions/0001.json -sigfile additions/0001.sig
   openssl pkey -pubin -in additions/0001.pem -outform DER | sha256sum

   ${words.additionNames}

   grep -c "\\"fingerprint\\":\\"$(openssl pkey -pubin -in additions/0001.pem -outform DER | sha256sum | cut -c 1-64)\\"" additions/0001.json
   grep -c "\\"manifestSha256\\":\\"$(sha256sum < manifest.json | cut -c 1-64)\\"" additions/0001.json
   grep -c "\\"previousSha256\\":\\"$(sha256sum < manifest.json | cut -c 1-64)\\"" additions/0001.json
   ls -A additions | grep -v -x -E "[0-9]{4}\\.(json|sig|pem)"

${witnessStep(manifest, words)}${words.shows}
`;
}

const NO_WORDS: CheckWords = {
  title: '',
  intro: () => '',
  practice: '',
  manifest: '',
  key: '',
  names: '',
  pages: '',
  files: '',
  others: '',
  additions: '',
  additionNames: '',
  witness: '',
  witnessKeys: '',
  shows: '',
};

const lines = (text: string): readonly string[] => text.split('\n').map((line) => line.trim());

/**
 * Has the text every line that is to be typed, and each fingerprint that is to be compared, whole and in order? They are a part
 * of the format, whatever the language and whichever version of the program chose the words between them.
 */
export function hasCommands(text: string, manifest: Manifest): boolean {
  const wanted = lines(checkText(manifest, NO_WORDS)).filter((line) => !/^(\d+\.)?$/.test(line));
  let at = 0;
  for (const line of lines(text)) if (line === wanted[at]) at++;
  return at === wanted.length;
}
