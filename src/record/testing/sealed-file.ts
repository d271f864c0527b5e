/** A job's file with two additions, and the hands that change it, for tests of verification. */
import { bytesSource } from '../byte-source.ts';
import type { Finding } from '../findings.ts';
import { scanPages } from '../page-scanner.ts';
import { addToSealed, type Sealed } from '../seal.ts';
import type { Signer } from '../signing.ts';
import { type Verification, type VerifyOptions, verifyJobFile } from '../verify.ts';
import {
  asRecorded,
  checkWords,
  jobFile,
  newSigner,
  paper,
  recordCrypto,
  runPages,
  sealRun,
  twoPoint,
} from './sealing.ts';
import { unzip, zipBytes } from './zips.ts';

export interface SealedFile {
  readonly signer: Signer;
  readonly office: Signer;
  readonly pages: Uint8Array;
  readonly sealed: Sealed;
  readonly file: Uint8Array;
  /** Where each page begins in the pages. */
  readonly offsets: readonly number[];
  readonly verify: (bytes: Uint8Array, more?: Partial<VerifyOptions>) => Promise<Verification>;
  /** The file unpacked, changed by hand and packed again in the right form: container and CRCs are sound. */
  readonly repacked: (change: (members: Map<string, Uint8Array>) => void) => Uint8Array;
}

export async function makeSealedFile(): Promise<SealedFile> {
  const signer = await newSigner();
  const office = await newSigner();
  const pages = runPages();
  const correction = { member: 'job.name', text: 'typed wrongly', to: 'Repair B' };
  let sealed = await sealRun(pages, signer);
  sealed = await addToSealed(
    sealed,
    { kind: 'correction', body: correction, utcMs: 2e12 + 3 },
    signer,
    recordCrypto,
  );
  const status = { kind: 'status', body: { status: 'released' }, utcMs: 2e12 + 4 } as const;
  sealed = await addToSealed(sealed, status, office, recordCrypto);
  const file = await jobFile(pages, sealed, signer, paper);
  const whole = (await unzip(file)).members;
  const offsets: number[] = [];
  for (const item of scanPages(pages)) if (item.kind === 'page') offsets.push(item.page.offset);
  const trusted = new Map([
    [signer.fingerprint, 'tablet 3'],
    [office.fingerprint, 'office'],
  ]);
  return {
    signer,
    office,
    pages,
    sealed,
    file,
    offsets,
    verify: (bytes, more) =>
      verifyJobFile(bytesSource(bytes), {
        crypto: recordCrypto,
        trusted,
        sense: twoPoint,
        judge: asRecorded,
        words: checkWords,
        extras: paper,
        ...more,
      }),
    repacked(change) {
      const members = new Map(whole.map(({ name, bytes }) => [name, bytes.slice()]));
      change(members);
      return zipBytes([...members].map(([name, bytes]) => ({ name, bytes })));
    },
  };
}

export const flip = (bytes: Uint8Array, at: number): void => {
  bytes[at]! ^= 0x04;
};

export const firstOf = <F extends Finding['f']>(v: Verification, f: F): Extract<Finding, { f: F }> =>
  v.findings.find((x): x is Extract<Finding, { f: F }> => x.f === f)!;
