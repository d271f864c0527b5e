/**
 * The client's packet: the record file and, beside it for reading, the certificate, the photographs and how to check. A plain
 * zip of the one form; what proves anything is the record file in it.
 */
import { enclosedFiles, photoName } from '../job/enclosed.ts';
import { chunksOf } from '../record/byte-source.ts';
import { groupFingerprint } from '../record/fingerprints.ts';
import { blobSource } from '../record/stores/blob-source.ts';
import { zipWriter } from '../record/zip-writer.ts';
import type { Catalogue } from '../words/catalogue.ts';
import type { EvidenceDeps } from './deps.ts';
import { EvidenceError } from './faults.ts';
import type { EvidenceAnswers } from './messages.ts';
import type { OpenRecord } from './open.ts';

interface Part {
  readonly name: string;
  readonly file: Blob;
}

async function zipOf(deps: EvidenceDeps, parts: readonly Part[]): Promise<Blob> {
  const zip = zipWriter();
  const out: BlobPart[] = [];
  for (const { name, file } of parts) {
    let crc = 0;
    // A chunk at a time: the record may be large.
    for await (const chunk of chunksOf(blobSource(file))) crc = deps.crypto.crc32(chunk, crc);
    out.push(zip.add(name, crc, file.size) as Uint8Array<ArrayBuffer>, file);
  }
  return new Blob([...out, ...(zip.finish() as Uint8Array<ArrayBuffer>[])], { type: 'application/zip' });
}

/**
 * @param built the record file
 * @param html its certificate
 * @param words in the record's language
 */
export async function packetOf(
  deps: EvidenceDeps,
  record: OpenRecord,
  built: EvidenceAnswers['job-file'],
  made: { readonly html: string; readonly manifestSha256: string },
  words: Catalogue,
): Promise<EvidenceAnswers['packet']> {
  const { manifest } = record;
  if (manifest === null) throw new EvidenceError('not-sealed', 'a packet is made of a sealed record only');
  if (manifest.practice) throw new EvidenceError('practice', 'a practice record is for no client');
  const key = groupFingerprint(manifest.signer.fingerprint);
  // The record's own name goes into the zip only where it is one that a zip of ours can have.
  const inner = /^[A-Za-z0-9][A-Za-z0-9_-]*(\.[A-Za-z0-9_-]+)*$/.test(built.name.slice(0, 90))
    ? built.name.slice(0, 90)
    : 'record.steadybar.zip';
  const howTo = words.packet.PACKET.howTo(inner, key, groupFingerprint(made.manifestSha256));
  const reading: Part[] = [
    { name: 'certificate.html', file: new Blob([made.html], { type: 'text/html' }) },
    { name: 'HOW-TO-CHECK.txt', file: new Blob([howTo], { type: 'text/plain' }) },
  ];
  const large = new Set((manifest.enclosed?.photos ?? []).map((p, i) => photoName(p, i)));
  for (const { name, sha256 } of enclosedFiles(manifest.enclosed ?? null)) {
    if (!large.has(name)) continue;
    const bytes = await record.photo(sha256);
    if (bytes !== null)
      reading.push({
        name: `photos/${name}`,
        file: new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'image/jpeg' }),
      });
  }
  const file = await zipOf(deps, [{ name: `record/${inner}`, file: built.file }, ...reading]);
  const name = `${inner.replace(/(\.steadybar)?\.zip$/, '')}_packet.zip`;
  return { name, file, reading };
}
