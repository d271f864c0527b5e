/** What is worth knowing of a record beside its verdict. */

import type { Remark } from './findings.ts';
import { fromHex } from './hex.ts';
import type { Manifest } from './manifest.ts';
import type { Addition } from './seal.ts';
import { fingerprintOf, successionText } from './signing.ts';
import type { Work } from './verify-derived.ts';

/** A shorter one is no more than a lost line, s. */
const LEAST_GAP_S = 1;

/** Who signs a manifest may write anything for a time. */
function gapsIn({ events }: Manifest): Extract<Remark, { r: 'gaps' }> | null {
  let longest: Extract<Remark, { r: 'gaps' }> | null = null;
  let count = 0;
  for (const event of events) {
    if (event.e !== 'gap') continue;
    const seconds = (event.toUs - event.fromUs) / 1e6;
    if (!(seconds >= LEAST_GAP_S)) continue;
    count++;
    if (longest === null || seconds > longest.seconds)
      longest = { r: 'gaps', count, seconds, tUs: event.toUs };
  }
  return longest === null ? null : { ...longest, count };
}

export function remark(
  { remarks }: Work,
  manifest: Manifest,
  additions: readonly Addition[],
  noSums: boolean,
): void {
  if (manifest.end === 'interrupted') remarks.push({ r: 'interrupted' });
  if (manifest.resumedUs.length > 0) remarks.push({ r: 'resumed', times: manifest.resumedUs.length });
  if (manifest.pages.damage.length > 0)
    remarks.push({ r: 'damaged-at-sealing', pages: manifest.pages.damage.reduce((s, d) => s + d.pages, 0) });
  const gaps = gapsIn(manifest);
  if (gaps !== null) remarks.push(gaps);
  if (manifest.job === null) remarks.push({ r: 'no-job' });
  if (noSums) remarks.push({ r: 'no-sums' });
  if (additions.length > 0) remarks.push({ r: 'additions', count: additions.length });
}

export async function remarkSuccession({ remarks, options }: Work, manifest: Manifest): Promise<void> {
  const { previous, fingerprint } = manifest.signer;
  if (previous === null) return;
  const key = typeof previous.publicKey === 'string' ? fromHex(previous.publicKey) : null;
  const signature = typeof previous.endorsement === 'string' ? fromHex(previous.endorsement) : null;
  const endorsed =
    key?.length === 32 &&
    signature !== null &&
    (await fingerprintOf(options.crypto, key)) === previous.fingerprint &&
    (await options.crypto.verify(key, successionText(previous.fingerprint, fingerprint), signature));
  const reason = previous.reason === 'changed' ? 'changed' : 'lost';
  remarks.push({ r: 'key-followed', fingerprint: previous.fingerprint, reason, endorsed });
}
