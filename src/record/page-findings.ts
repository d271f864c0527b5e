/** Which pages of a changed record differ from the signed ones, and the time they cover. */
import type { ByteSource } from './byte-source.ts';
import type { Finding } from './findings.ts';
import type { Sha256 } from './hashing.ts';
import { toHex } from './hex.ts';
import { type Manifest, type ReadContent, readContent } from './manifest.ts';
import { scanChunks } from './page-scanner.ts';
import type { PageDamage } from './types.ts';

const key = (d: Pick<PageDamage, 'what' | 'page'>): string => `${d.what} ${d.page}`;

/**
 * Damage that the scan finds and the manifest does not list; where every page is sound in itself and the chain
 * was made anew, the span between two of the manifest's checkpoints.
 */
export async function pageFindings(
  manifest: Manifest,
  pages: ByteSource,
  read: ReadContent | null,
  sha256: Sha256,
): Promise<Finding[]> {
  const listed = new Set(manifest.pages.damage.map(key));
  const found: Finding[] = [];
  for (const d of read?.scan.damage ?? []) {
    if (listed.has(key(d))) continue;
    found.push({
      f: 'pages',
      why: d.what,
      page: d.page,
      pages: d.pages,
      offset: d.offset,
      fromUs: d.fromUs,
      toUs: d.toUs,
    });
  }
  if (read === null) {
    // Without its first page a run has no head; what the scan says still names the place.
    for await (const items of scanChunks(pages, { sha256 }))
      for (const item of items) {
        if (item.kind !== 'damage') continue;
        const { what, page, pages: n, offset, fromUs, toUs } = item.damage;
        found.push({ f: 'pages', why: what, page, pages: n, offset, fromUs, toUs });
      }
  }
  if (read !== null && read.content.end === null && manifest.end !== null)
    found.push({
      f: 'pages',
      why: 'end',
      page: read.scan.nextIndex,
      pages: Math.max(1, manifest.pages.count - read.scan.pages),
      offset: read.scan.goodBytes,
      fromUs: read.scan.lastUs,
      toUs: manifest.pages.lastUs,
    });
  const rewritten = found.length === 0 ? await rewrittenSpan(manifest, pages, sha256) : null;
  return rewritten === null ? found : [rewritten];
}

/**
 * A file that ends within the pages: what is changed before its end, and from which page and time on there is nothing.
 * @param cut the pages as far as they are there
 */
export async function cutFindings(manifest: Manifest, cut: ByteSource, sha256: Sha256): Promise<Finding[]> {
  const read = await readContent(cut, sha256);
  const whole = (await pageFindings(manifest, cut, read, sha256)).filter(
    (f) => f.f === 'pages' && f.why !== 'torn' && f.why !== 'end' && f.why !== 'rewritten',
  );
  const page = read?.scan.nextIndex ?? 0;
  return [
    ...whole,
    {
      f: 'pages',
      why: 'cut',
      page,
      pages: Math.max(1, manifest.pages.count - page),
      offset: read?.scan.goodBytes ?? 0,
      fromUs: read?.scan.lastUs ?? manifest.pages.firstUs,
      toUs: manifest.pages.lastUs,
    },
  ];
}

async function rewrittenSpan(manifest: Manifest, pages: ByteSource, sha256: Sha256): Promise<Finding> {
  let fromPage = 0;
  let fromUs: number | null = manifest.pages.firstUs;
  const hashes = new Map<number, string>();
  for await (const items of scanChunks(pages, { sha256 }))
    for (const item of items) if (item.kind === 'page') hashes.set(item.page.header.index, toHex(item.hash));
  const end = {
    page: manifest.pages.count - 1,
    tUs: manifest.pages.lastUs,
    sha256: manifest.pages.chainHead,
  };
  for (const c of [...manifest.pages.checkpoints, end]) {
    if (hashes.get(c.page) === c.sha256) {
      fromPage = c.page + 1;
      fromUs = c.tUs;
      continue;
    }
    const count = Math.max(1, c.page - fromPage + 1);
    return { f: 'pages', why: 'rewritten', page: fromPage, pages: count, offset: null, fromUs, toUs: c.tUs };
  }
  return { f: 'pages', why: 'rewritten', page: fromPage, pages: 1, offset: null, fromUs, toUs: null };
}
