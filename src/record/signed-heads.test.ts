import { describe, expect, it } from 'vitest';
import { NODE_SHA256 } from '../cli/node-crypto.ts';
import { contentOf, type Manifest } from './manifest.ts';
import { apartFromHeads } from './signed-heads.ts';
import { runPages } from './testing/sealing.ts';

const pages = runPages({ seconds: 6 });
const manifestOf = (bytes: Uint8Array): Manifest => contentOf(bytes)!.content as unknown as Manifest;

function look(bytes: Uint8Array, manifest: Manifest, named: readonly number[] = []) {
  const hashed = new Map<number, Uint8Array>();
  const apart = apartFromHeads(bytes, manifest, NODE_SHA256, {
    has: (index) => named.includes(index),
    hashed: (index, hash) => void hashed.set(index, hash),
  });
  return { apart, hashed: [...hashed.keys()] };
}

describe('heads of signed pages', () => {
  it('are those of the manifest; hashed are the checkpoints, the last page and those that are named', () => {
    const manifest = manifestOf(pages);
    const last = manifest.pages.count - 1;
    expect(last).toBeGreaterThan(6);
    expect(look(pages, manifest, [3])).toEqual({ apart: [], hashed: [0, 3, last] });
  });

  it('name what the manifest says otherwise', () => {
    const manifest = manifestOf(pages);
    const other = (more: Partial<Manifest>, morePages: Partial<Manifest['pages']> = {}) =>
      look(pages, { ...manifest, ...more, pages: { ...manifest.pages, ...morePages } }).apart;
    expect(other({ runId: 'another' })).toEqual(['runId']);
    expect(other({ openedUtcMs: 7 })).toEqual(['openedUtcMs']);
    expect(other({ seen: '0'.repeat(64) })).toEqual(['seen']);
    expect(other({ end: 'interrupted' })).toEqual(['end']);
    for (const more of [{ count: 5 }, { chainHead: '0'.repeat(64) }, { checkpoints: [] }])
      expect(other({}, more)).toEqual(['pages']);
    const practice = runPages({ seconds: 2, head: { practice: true } });
    expect(look(practice, { ...manifestOf(practice), practice: false }).apart).toEqual(['practice']);
  });

  it('are none where a page is missing, changed behind one that is hashed, or follows the end', () => {
    const manifest = manifestOf(pages);
    const second = new DataView(pages.buffer).getUint32(12, true);
    const changed = pages.slice();
    changed[second + 85]! ^= 1;
    const without = new Uint8Array([...pages.subarray(0, second), ...pages.subarray(second * 2)]);
    const twice = new Uint8Array([...pages, ...pages]);
    for (const bad of [changed, without, twice, pages.subarray(0, pages.length - 8)])
      expect(look(bad, manifest).apart).toContain('pages');
    expect(look(new Uint8Array(200), manifest).apart).toEqual(['pages']);
  });
});
