/** The members of a job's file by name, in the order of the file. */
import { WITNESS_FOLDER } from './witness/run-proof.ts';
import { isMemberName } from './zip-form.ts';

export const FILE = {
  check: 'CHECK.txt',
  manifest: 'manifest.json',
  signature: 'manifest.sig',
  signer: 'signer.pem',
  pages: 'pages.bin',
  events: 'events.jsonl',
  log: 'log.jsonl',
  csv: 'trace.csv',
  parquet: 'trace.parquet',
  sums: 'SHA256SUMS',
  sumsSignature: 'SHA256SUMS.sig',
} as const;

/** The members before the extra ones, in the order of the file. */
export const CORE_FILES: readonly string[] = [
  FILE.check,
  FILE.manifest,
  FILE.signature,
  FILE.signer,
  FILE.pages,
  FILE.events,
  FILE.log,
  FILE.csv,
  FILE.parquet,
];

export const additionName = (number: number, ending: 'json' | 'sig' | 'pem'): string =>
  `additions/${String(number).padStart(4, '0')}.${ending}`;

/** A name that an extra file may have: no folder, and none of the names that have a meaning here. */
export const isExtraName = (name: string): boolean => {
  const taken = [...CORE_FILES, FILE.sums, FILE.sumsSignature, 'additions', 'witness'].map((n) =>
    n.toLowerCase(),
  );
  return isMemberName(name) && !name.includes('/') && !taken.includes(name.toLowerCase());
};

/** What the file carries of the witness log. */
export const isProofName = (name: string): boolean => name.startsWith(WITNESS_FOLDER);
