/** A backup as another program could make one, of whatever documents, and sums that agree with them. */
import { BACKUP_FILE, manifestBytes } from '../../../record/backup.ts';
import { toHex } from '../../../record/hex.ts';
import { unzip, type ZipMember, zipBytes } from '../../../record/testing/zips.ts';

export const sha = async (b: Uint8Array): Promise<string> =>
  toHex(new Uint8Array(await globalThis.crypto.subtle.digest('SHA-256', b as Uint8Array<ArrayBuffer>)));
export const blobOf = (bytes: Uint8Array): Blob => new Blob([bytes as Uint8Array<ArrayBuffer>]);

/** The backup with other lines of documents and its sums made anew, as another program could make one. */
export async function rewritten(backup: Uint8Array, edit: (lines: string[]) => string[]): Promise<Blob> {
  const out: ZipMember[] = [];
  const sums: string[] = [];
  for (const member of (await unzip(backup)).members) {
    const { name } = member;
    let { bytes } = member;
    if (name === BACKUP_FILE.documents) {
      const lines = new TextDecoder().decode(bytes).trimEnd().split('\n');
      bytes = new TextEncoder().encode(
        edit(lines)
          .map((l) => `${l}\n`)
          .join(''),
      );
    } else if (name === BACKUP_FILE.sums) bytes = new TextEncoder().encode(sums.join(''));
    else if (name === BACKUP_FILE.manifest) {
      const m = JSON.parse(new TextDecoder().decode(bytes));
      bytes = manifestBytes({ ...m, sumsSha256: await sha(out.at(-1)!.bytes) });
    }
    sums.push(`${await sha(bytes)}  ${name}\n`);
    out.push({ name, bytes });
  }
  return blobOf(zipBytes(out));
}
