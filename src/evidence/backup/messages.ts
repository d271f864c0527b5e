/** The part of the contract between page and evidence worker that is about backups. */
export interface BackupMade {
  readonly name: string;
  readonly file: Blob;
  readonly documents: number;
  readonly files: number;
  /** Runs without an end, which are not in it. */
  readonly leftOut: readonly string[];
}

/** In the order of a summary. */
export const BACKUP_GROUPS = [
  'job',
  'packer',
  'resin',
  'sensor',
  'settings',
  'run',
  'import',
  'key',
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
  | 'signature'; // a seal that its key did not sign

export interface RestoreLine {
  readonly group: BackupGroup;
  readonly id: string;
  readonly title: string;
  readonly fate: RestoreFate;
  readonly why: RefusedWhy | null;
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
  /** This tablet has a key of its own. */
  readonly keyHere: boolean;
}

export interface RestoreChoice {
  /** What differs: keep only what is here, or keep both, the backup's under another name. */
  readonly differing: 'mine' | 'both';
  /** Take the settings of the backup in place of those here. */
  readonly settings: boolean;
}

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
  /** Ends a backup or a restore that is under way; what it wrote is taken back. */
  | { readonly q: 'cancel' };

export interface BackupAnswers {
  backup: BackupMade;
  'restore-look': RestoreSummary;
  restore: RestoreDone;
  cancel: null;
}
