import type { ByteFile } from '../record/types.ts';

/** Bytes of a block: what grows is a list of blocks, so that nothing long is ever copied to make room. */
const BLOCK = 1 << 20;

/** Bytes that are kept nowhere: side files of a trace that has no run yet, or that is only looked at. */
export function createMemoryFile(): ByteFile {
  const blocks: Uint8Array[] = [];
  let size = 0;

  /** Goes over [from, to) block by block. */
  function each(from: number, to: number, visit: (part: Uint8Array, done: number) => void): void {
    for (let at = from; at < to; ) {
      const inside = at % BLOCK;
      const n = Math.min(BLOCK - inside, to - at);
      visit(blocks[(at - inside) / BLOCK]!.subarray(inside, inside + n), at - from);
      at += n;
    }
  }

  return {
    get size() {
      return size;
    },
    append(more) {
      const to = size + more.length;
      while (blocks.length * BLOCK < to) blocks.push(new Uint8Array(BLOCK));
      each(size, to, (part, done) => part.set(more.subarray(done, done + part.length)));
      size = to;
    },
    truncate(to) {
      size = Math.min(size, to);
      blocks.length = Math.ceil(size / BLOCK);
    },
    read(offset, length) {
      const to = Math.min(size, offset + length);
      const out = new Uint8Array(Math.max(0, to - offset));
      each(offset, to, (part, done) => out.set(part, done));
      return out;
    },
  };
}
