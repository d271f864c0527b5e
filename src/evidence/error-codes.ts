import type { EngineErrorCode } from '../engine/messages.ts';

/** Why a request about a record is refused. A leaf: every part of the contract with the page names these. */
export type EvidenceErrorCode =
  | EngineErrorCode
  | 'practice' // a practice record goes to no client
  | 'open' // no end mark yet
  | 'unreadable' // the first page does not stand
  | 'sealed' // it is already
  | 'not-sealed'
  | 'key-missing' // this browser makes no Ed25519 keys
  | 'too-large'
  | 'language-future' // the record's words are of a later version
  | 'not-a-backup'
  | 'backup-damaged'
  | 'backup-future'
  | 'reason-needed' // an acceptance of a record with exceptions
  | 'cancelled'
  | 'picture-not-a-picture' // another kind of file
  | 'picture-heic'
  | 'picture-drawing'
  | 'picture-broken' // it can't be decoded
  | 'picture-large' // bytes or pixels
  | 'picture-twice'
  | 'picture-sealed' // a sealed record has it
  | 'picture-unread' // this browser makes no JPEG in a worker
  | 'pictures-full'
  | 'signature-blank';
