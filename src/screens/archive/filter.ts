import type { ArchiveEntry, ReviewStatus } from '../../evidence/messages.ts';

/** What the supervisor looks for. Dates are local days, ISO; '' is any. */
export interface ArchiveFilter {
  readonly text: string;
  readonly from: string;
  readonly to: string;
  readonly packer: string;
  readonly status: 'any' | ReviewStatus;
  readonly seal: 'any' | 'sealed' | 'unsealed' | 'unknown';
  readonly chip: Chip;
}

/** One press each. Practice stands apart: no other chip shows it. */
export const CHIPS = ['all', 'review', 'ceiling', 'alarms', 'cure', 'practice'] as const;
export type Chip = (typeof CHIPS)[number];

export const NO_FILTER: ArchiveFilter = {
  text: '',
  from: '',
  to: '',
  packer: '',
  status: 'any',
  seal: 'any',
  chip: 'all',
};

const fold = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

/** Once for each: thousands are gone through at every letter that is typed. */
const folded = new WeakMap<ArchiveEntry, string>();
function allWords(entry: ArchiveEntry): string {
  let all = folded.get(entry);
  if (all === undefined) {
    const { title, site, client, packer, crew, runId } = entry;
    all = fold([title, site, client, packer, crew, runId, entry.imported?.name ?? ''].join(' '));
    folded.set(entry, all);
  }
  return all;
}

/** Every word must stand somewhere in what is known of the record, whatever its accents and case. */
function hasWords(entry: ArchiveEntry, words: readonly string[]): boolean {
  const all = words.length === 0 ? '' : allWords(entry);
  return words.every((word) => all.includes(word));
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

/** Nobody has decided about it yet, and somebody should. */
export const waits = (entry: ArchiveEntry): boolean =>
  !entry.practice && entry.state !== 'open' && (entry.status?.status ?? 'open') === 'open';

/** What only the record itself tells of some: of a kept file it stands in its label, of a run of this tablet in its seal. */
export type Told = Pick<ArchiveEntry, 'cure' | 'ceiling'>;

/** What these chips ask for is not known of every record at once. */
export const asksRecord = (chip: Chip): boolean => chip === 'cure' || chip === 'ceiling';

/** @param told null in it: the record could not be read; undefined: not known yet, then nothing is said of the record */
export function inChip(entry: ArchiveEntry, chip: Chip, told: Told | undefined): boolean {
  if (chip === 'practice') return entry.practice;
  if (entry.practice) return false;
  switch (chip) {
    case 'all':
      return true;
    case 'review':
      return waits(entry);
    case 'alarms':
      return entry.alarms > 0;
    case 'cure':
      // A record that could not be read says nothing of its cure either.
      return entry.state !== 'open' && told !== undefined && told.cure !== 'met';
    case 'ceiling':
      return told?.ceiling === 'passed';
    default:
      return chip satisfies never;
  }
}

/** All but the chip, as a question to each record. @param dayOf the local day of a time, ISO */
export function matching(
  f: Omit<ArchiveFilter, 'chip'>,
  dayOf: (utcMs: number) => string,
): (entry: ArchiveEntry) => boolean {
  const words = fold(f.text)
    .split(/\s+/)
    .filter((word) => word !== '');
  const dated = f.from !== '' || f.to !== '';
  return (entry) => {
    const day = dated ? dayOf(entry.openedUtcMs) : '';
    if (f.from !== '' && day < f.from) return false;
    if (f.to !== '' && day > f.to) return false;
    if (f.packer !== '' && entry.packer !== f.packer) return false;
    if (f.status !== 'any' && (entry.status?.status ?? 'open') !== f.status) return false;
    return hasSeal(entry, f.seal) && hasWords(entry, words);
  };
}
