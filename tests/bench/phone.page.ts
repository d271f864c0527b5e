import { deriving } from '../../src/evidence/deriving.ts';
import { createRecordCrypto } from '../../src/record/signing.ts';
import { blobSource } from '../../src/record/stores/blob-source.ts';
import { verifyJobFile } from '../../src/record/verify.ts';
import { english } from '../../src/words/testing/english.ts';

// What the evidence worker does with a dropped file, on a page's own thread: that is the one that Chromium slows down.

export interface PhoneCost {
  readonly firstS: number;
  readonly firstVerdict: string;
  readonly wholeS: number;
  readonly wholeVerdict: string;
  readonly told: number;
}

async function measure(url: string): Promise<PhoneCost> {
  const file = await (await fetch(url)).blob();
  const options = { crypto: createRecordCrypto(crypto.subtle), trusted: new Map<string, string>() };
  let at = performance.now();
  const first = await verifyJobFile(blobSource(file), {
    ...options,
    sense: null,
    judge: null,
    firstOnly: true,
  });
  const firstS = (performance.now() - at) / 1000;
  at = performance.now();
  let told = 0;
  const progress = async (): Promise<void> => {
    told++;
    // The page lives: a cancel would be heard here.
    await new Promise((resolve) => setTimeout(resolve, 0));
  };
  const whole = await verifyJobFile(blobSource(file), {
    ...options,
    ...deriving(async () => english),
    progress,
  });
  const wholeS = (performance.now() - at) / 1000;
  return { firstS, firstVerdict: first.verdict, wholeS, wholeVerdict: whole.verdict, told };
}

Object.assign(globalThis, { measure });
