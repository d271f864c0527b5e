/** The part of the contract between page and evidence worker that is about backups. */
export interface BackupMade {
  readonly name: string;
  readonly file: Blob;
  /** What is in it, as a restore's summary counts it. */
  readonly groups: Readonly<Record<BackupGroup, number>>;
  /** Runs without an end, which are not in it. */
  readonly leftOut: readonly string[];
}

/** In the order of a summary. */
export const BACKUP_GROUPS = [
  'job',
  'packer',
  'resin',
  'sensor',
  'registers',
  'columns',
  'checklist',
  'bench',
  'settings',
  'run',
  'seal',
  'addition',
  'review',
  'enclosed',
  'import',
] as const;
export type BackupGroup = (typeof BACKUP_GROUPS)[number];

/** What restoring would do with one thing of the backup. */
export const RESTORE_FATES = [
  'new',
  'same', // it is here already
  'grows', // it is here, and the backup's has more at its end: signed additions, statuses
  'differs', // another one of the same name is here
  'refused',
] as const;
export type RestoreFate = (typeof RESTORE_FATES)[number];

export type RefusedWhy =
  | 'future' // of a later version of the program
  | 'form' // not what its kind's schema asks
  | 'file-missing'
  | 'open' // a run without an end
  | 'other-run' // what it names is another run
  | 'signature' // a seal that its key did not sign
  | 'key' // the fingerprint that it names is not its key's
  | 'pages' // the seal is one of other pages
  | 'log' // what it carries of a witness log does not hold, or is not of it
  | 'chain' // its additions don't follow from it, or are not signed
  | 'unsealed-here'; // the run is here without a seal, and the seal is not of this tablet's key

export interface RestoreLine {
  readonly group: BackupGroup;
  readonly id: string;
  readonly title: string;
  readonly fate: RestoreFate;
  readonly why: RefusedWhy | null;
}

/** A key that a backup names. Nothing of it is believed but that these are its digits. */
export interface BackupKey {
  /**
   * 'own': one that signed on that tablet, as the backup says; 'known': one of its known keys; 'signer': it signed
   * something in the backup, and stands in neither list.
   */
  readonly role: 'own' | 'known' | 'signer';
  readonly fingerprint: string;
  /** As the backup has it; empty where it has none. */
  readonly name: string;
  /** When it was made, or became known there; null for a mere signer. */
  readonly sinceUtcMs: number | null;
  /** Seals in the backup that it signed. */
  readonly seals: number;
  /** Additions in the backup that it signed. */
  readonly additions: number;
  /** It is counted as this one's own, or known, on this tablet already. */
  readonly here: boolean;
}

/** Shown before anything is written. */
export interface RestoreSummary {
  /** Names this very plan: a restore with another one is refused. */
  readonly token: string;
  readonly madeUtcMs: number;
  readonly software: string;
  readonly counts: Readonly<Record<BackupGroup, Readonly<Record<RestoreFate, number>>>>;
  /** What differs or is refused, by name; the first few hundred. */
  readonly lines: readonly RestoreLine[];
  readonly strangeLines: number;
  readonly leftOut: number;
  /** Bytes that will be written, and the room there is. */
  readonly bytes: number;
  readonly room: number | null;
  /** Fingerprint of the key that signed there; it is not in the backup. */
  readonly keyThere: string | null;
  /** Every key that the backup names. */
  readonly keys: readonly BackupKey[];
  /** This tablet has a key of its own. */
  readonly keyHere: boolean;
}

/** None of it is trust but `own` and `known`, which name each key by itself. */
export interface RestoreChoice {
  readonly runs: boolean;
  /** Seals of the runs that are taken. */
  readonly seals: boolean;
  /** Additions of the seals that are taken; to records that are here, those by keys that are known here then. */
  readonly additions: boolean;
  /** Decisions on records that are here already; on others they come with the record. */
  readonly decisions: boolean;
  /** Fingerprints of keys of that tablet that shall count as this tablet's own. */
  readonly own: readonly string[];
  /** Fingerprints of its known keys that shall be known here. */
  readonly known: readonly string[];
  /** What differs: keep only what is here, or keep both, the backup's under another name. */
  readonly differing: 'mine' | 'both';
  /** Take the settings of the backup in place of those here. */
  readonly settings: boolean;
}

/** The plain way: what is new comes in, and nobody is trusted for it. */
export const PLAIN_CHOICE: RestoreChoice = {
  runs: true,
  seals: true,
  additions: true,
  decisions: false,
  own: [],
  known: [],
  differing: 'mine',
  settings: false,
};

export interface RestoreDone {
  readonly documents: number;
  readonly files: number;
  readonly keptBoth: number;
  /** The key that signs here from now on; `made` when it was made now. null: none yet, this browser makes none. */
  readonly key: { readonly fingerprint: string; readonly made: boolean } | null;
}

export type BackupRequest =
  | { readonly q: 'backup' }
  | { readonly q: 'restore-look'; readonly file: Blob }
  | { readonly q: 'restore'; readonly file: Blob; readonly token: string; readonly choice: RestoreChoice }
  /**
   * Ends whatever long work is under way; what a restore wrote is taken back. What came from elsewhere and does not let
   * itself be ended loses its worker.
   */
  | { readonly q: 'cancel' };

export interface BackupAnswers {
  backup: BackupMade;
  'restore-look': RestoreSummary;
  restore: RestoreDone;
  cancel: null;
}
