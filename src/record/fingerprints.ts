/** Fingerprints as people read and type them. */

/** A fingerprint as people read it aloud: groups of four. */
export const groupFingerprint = (fingerprint: string): string =>
  fingerprint.toUpperCase().replace(/(.{4})(?=.)/g, '$1 ');

/** A fingerprint as typed or pasted, with or without groups; null when it is none. */
export function parseFingerprint(text: string): string | null {
  const bare = text.replace(/[\s:-]/g, '').toLowerCase();
  return /^[0-9a-f]{64}$/.test(bare) ? bare : null;
}
