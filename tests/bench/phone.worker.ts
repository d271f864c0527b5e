import { deriving } from '../../src/evidence/deriving.ts';
import { inPieces } from '../../src/evidence/pieces/in-pieces.ts';
import type { PieceContract } from '../../src/evidence/pieces/order.ts';
import { createPool } from '../../src/evidence/pieces/pool.ts';
import { createRecordCrypto } from '../../src/record/signing.ts';
import { blobSource } from '../../src/record/stores/blob-source.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import type { Digests } from '../../src/record/verify-members.ts';
import { english } from '../../src/words/testing/english.ts';

// What the evidence worker does with a dropped file, in a worker of the page's, with the workers that it starts for the pieces.

export interface PhoneCost {
  readonly firstS: number;
  readonly firstVerdict: string;
  /** All of it, from the file to the verdict. */
  readonly wholeS: number;
  readonly wholeVerdict: string;
  /** From the start: the last piece was there. */
  readonly piecesS: number;
  /** The verdict did not need to judge or to sense anything where it was come to. */
  readonly isInPieces: boolean;
  readonly told: number;
}

async function measure(url: string, workers: number): Promise<PhoneCost> {
  const file = await (await fetch(url)).blob();
  const options = { crypto: createRecordCrypto(crypto.subtle), trusted: new Map<string, string>() };
  const since = (at: number): number => (performance.now() - at) / 1000;
  let at = performance.now();
  const first = await verifyJobFile(blobSource(file), {
    ...options,
    sense: null,
    judge: null,
    firstOnly: true,
  });
  const firstS = since(at);
  let told = 0;
  const made = deriving(async () => english);
  at = performance.now();
  const pool = createPool<PieceContract>({
    size: workers,
    open: () => new Worker('/piece.js', { type: 'module' }),
    later(ms, call) {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
  });
  let piecesS = 0;
  const there = inPieces({
    file,
    source: blobSource(file),
    pool,
    least: 1,
    ...made.elsewhere,
    progress: () => void told++,
  }).finally(() => {
    piecesS = since(at);
  });
  let here = 0;
  const digests: Digests = (stretch) => pool.ask({ q: 'digest', file, stretch }).catch(() => null);
  // Of the file: what the archive knows it by.
  const named = digests({ start: 0, size: file.size });
  const whole = await verifyJobFile(blobSource(file), {
    ...options,
    ...made,
    digests,
    sense(...args) {
      here++;
      return made.sense(...args);
    },
    judge: {
      ...made.judge,
      run(...args) {
        here++;
        return made.judge.run(...args);
      },
      elsewhere: () => there,
    },
  });
  await named;
  const wholeS = since(at);
  pool.stop();
  return {
    firstS,
    firstVerdict: first.verdict,
    wholeS,
    wholeVerdict: whole.verdict,
    piecesS,
    isInPieces: here === 0,
    told,
  };
}

self.addEventListener('message', ({ data }: MessageEvent<{ url: string; workers: number }>) => {
  measure(data.url, data.workers).then(
    (cost) => self.postMessage({ cost }),
    (cause: unknown) => self.postMessage({ failed: String(cause) }),
  );
});
