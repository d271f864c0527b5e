/** The part of the contract between page and evidence worker that is about keys. */
import type { KeyTerm } from '../../record/key-terms.ts';
import type { PreviousKey } from '../../record/signing.ts';

/** A key that is known to the firm. */
export interface KnownSigner {
  readonly fingerprint: string;
  readonly name: string;
  readonly addedUtcMs: number;
  readonly term: KeyTerm;
  /** Fingerprint of the key that signs in its place; null: none. */
  readonly replacedBy: string | null;
}

export interface KeyLine {
  readonly fingerprint: string;
  readonly sinceUtcMs: number;
  readonly previous: PreviousKey | null;
}

export interface KeyView {
  readonly state: 'ready' | 'none' | 'lost';
  /** The key that signs, or for 'lost' the one that did last. */
  readonly key: KeyLine | null;
  /** Oldest first. */
  readonly history: readonly KeyLine[];
}

/** What is asked of this tablet's own key, and of those that are known to the firm. */
export type KeyRequest =
  | { readonly q: 'key' }
  | { readonly q: 'change-key' }
  | { readonly q: 'signers' }
  | { readonly q: 'know-signer'; readonly fingerprint: string; readonly name: string }
  /** For which times a known key counts. What was signed at others stays what it is, by a key that does not count. */
  | { readonly q: 'signer-term'; readonly fingerprint: string; readonly term: KeyTerm }
  /** Another key signs from this moment on in the place of a known one, under the same name. */
  | {
      readonly q: 'replace-signer';
      readonly fingerprint: string;
      readonly by: string;
      readonly utcMs: number;
    }
  /** It was never to be known: what it signed is by a stranger, whenever that was. */
  | { readonly q: 'forget-signer'; readonly fingerprint: string };

export interface KeyAnswers {
  key: KeyView;
  'change-key': KeyView;
  signers: readonly KnownSigner[];
  'know-signer': readonly KnownSigner[];
  'signer-term': readonly KnownSigner[];
  'replace-signer': readonly KnownSigner[];
  'forget-signer': readonly KnownSigner[];
}
