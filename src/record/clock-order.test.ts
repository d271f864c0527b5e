import { beforeAll, expect, it } from 'vitest';
import { joinBytes } from './bytes.ts';
import { addToSealed } from './seal.ts';
import { HEAD } from './testing/arbitrary.ts';
import { makeSealedFile, type SealedFile } from './testing/sealed-file.ts';
import { jobFile, paper, RUN_LINE, RUN_SETUP, recordCrypto, sealRun } from './testing/sealing.ts';
import { createPageWriter } from './writer.ts';

let given: SealedFile;
beforeAll(async () => {
  given = await makeSealedFile();
});

/** A run whose pages were cut at these times of the wall clock, s after its opening. */
function pagesAt(seconds: readonly number[]): Uint8Array {
  const writer = createPageWriter(HEAD);
  writer.addEntry({ l: 'frame', tUs: 0, frame: RUN_LINE });
  writer.addEntry({ l: 'setup', tUs: 0, setup: RUN_SETUP });
  const chunks = seconds.map((s, i) => {
    writer.addEntry({ l: 'command', tUs: i * 1e6, command: { c: 'note', text: 'x' } });
    const utcMs = HEAD.utcMs! + s * 1000;
    return i === seconds.length - 1 ? writer.finish(utcMs, 'ended') : writer.cut(utcMs)!;
  });
  return joinBytes(chunks);
}

/** @param sealedUtcMs of the addition that is made to it, when the record was sealed at 2e12 */
async function remarksOn(seconds: readonly number[], addedUtcMs = 2e12): Promise<readonly unknown[]> {
  const pages = pagesAt(seconds);
  const { signer } = given;
  const more = { kind: 'note', body: 'x', utcMs: addedUtcMs } as const;
  const sealed = await addToSealed(await sealRun(pages, signer), more, signer, recordCrypto);
  const v = await given.verify(await jobFile(pages, sealed, signer, paper), { judge: null });
  expect(v.verdict).toBe('valid');
  return v.remarks.filter((r) => r.r === 'clock-back');
}

it('times in their order are not remarked, nor what keeping time takes back', async () => {
  expect(await remarksOn([1, 2, 3])).toEqual([]);
  expect(await remarksOn([1, 2, 1.5, 3])).toEqual([]);
});

it('time that runs back page by page is told with the first page and the widest step', async () => {
  expect(await remarksOn([1, 100, 40, 39.5, 9, 200])).toEqual([
    { r: 'clock-back', what: 'pages', at: 2, times: 2, seconds: 60 },
  ]);
});

it('a run that ended before it was opened, a seal before its run, an addition before the seal', async () => {
  expect(await remarksOn([-50])).toEqual([{ r: 'clock-back', what: 'end', at: 0, times: 1, seconds: 50 }]);
  const afterSeal = (2e12 - HEAD.utcMs!) / 1000 + 3600;
  expect(await remarksOn([afterSeal])).toEqual([
    { r: 'clock-back', what: 'sealing', at: 0, times: 1, seconds: 3600 },
  ]);
  expect(await remarksOn([1], 1e12)).toEqual([
    { r: 'clock-back', what: 'addition', at: 1, times: 1, seconds: 1e9 },
  ]);
});
