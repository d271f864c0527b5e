import type { ArchiveEntry, ReviewStatus } from '../../evidence/messages.ts';

/** What the supervisor looks for. Dates are local days, ISO; '' is any. */
export interface ArchiveFilter {
  readonly text: string;
  readonly from: string;
  readonly to: string;
  readonly packer: string;
  readonly status: 'any' | ReviewStatus;
  readonly seal: 'any' | 'sealed' | 'unsealed' | 'unknown';
  readonly kind: 'real' | 'practice' | 'all';
  readonly alarms: 'any' | 'some' | 'none';
}

export const NO_FILTER: ArchiveFilter = {
  text: '',
  from: '',
  to: '',
  packer: '',
  status: 'any',
  seal: 'any',
  kind: 'all',
  alarms: 'any',
};

const fold = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** Every word must stand somewhere in what is known of the record, whatever its accents and case. */
function hasWords(entry: ArchiveEntry, text: string): boolean {
  const { title, site, client, packer, crew, runId } = entry;
  const all = fold([title, site, client, packer, crew, runId, entry.imported?.name ?? ''].join(' '));
  return fold(text)
    .split(/\s+/)
    .every((word) => all.includes(word));
}

function hasSeal(entry: ArchiveEntry, seal: ArchiveFilter['seal']): boolean {
  switch (seal) {
    case 'any':
      return true;
    case 'sealed':
      return entry.sealed !== null;
    case 'unsealed':
      return entry.sealed === null;
    case 'unknown':
      return entry.sealed !== null && entry.sealed.signer === null;
  }
}

/** @param dayOf the local day of a time, ISO */
export function matches(entry: ArchiveEntry, f: ArchiveFilter, dayOf: (utcMs: number) => string): boolean {
  const day = dayOf(entry.openedUtcMs);
  if (f.from !== '' && day < f.from) return false;
  if (f.to !== '' && day > f.to) return false;
  if (f.packer !== '' && entry.packer !== f.packer) return false;
  if (f.kind !== 'all' && entry.practice !== (f.kind === 'practice')) return false;
  if (f.status !== 'any' && (entry.status?.status ?? 'open') !== f.status) return false;
  if (f.alarms !== 'any' && entry.alarms > 0 !== (f.alarms === 'some')) return false;
  return hasSeal(entry, f.seal) && hasWords(entry, f.text);
}
