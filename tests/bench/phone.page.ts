import { judgeFile } from '../../src/evidence/checked-files.ts';
import { deriving } from '../../src/evidence/deriving.ts';
import { createRecordCrypto } from '../../src/record/signing.ts';
import { blobSource } from '../../src/record/stores/blob-source.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import { english } from '../../src/words/testing/english.ts';

// What the evidence workers do with a dropped file, on a page's own thread: that is the one that Chromium slows down. The app
// does the two parts of the whole in two workers at the same time; here one comes after the other, and each has its own time.

export interface PhoneCost {
  readonly firstS: number;
  readonly firstVerdict: string;
  /** Read, hashed, made again and compared, with the judgements of the other worker at hand. */
  readonly madeS: number;
  readonly madeVerdict: string;
  /** By the other worker, which begins with the file too. */
  readonly judgedS: number;
  readonly told: number;
}

async function measure(url: string): Promise<PhoneCost> {
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
  const progress = async (): Promise<void> => {
    told++;
    // The page lives: a cancel would be heard here.
    await new Promise((resolve) => setTimeout(resolve, 0));
  };
  at = performance.now();
  const events = await judgeFile(file, progress);
  const judgedS = since(at);
  const made = deriving(async () => english);
  const judge = { ...made.judge, elsewhere: async () => events };
  at = performance.now();
  const whole = await verifyJobFile(blobSource(file), { ...options, ...made, judge, progress });
  const madeS = since(at);
  return { firstS, firstVerdict: first.verdict, madeS, madeVerdict: whole.verdict, judgedS, told };
}

Object.assign(globalThis, { measure });
