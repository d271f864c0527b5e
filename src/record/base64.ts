/** Base64 (RFC 4648, section 4), with padding. */

/** Bytes that are handed to one call; more arguments than this some platforms refuse. */
const AT_ONCE = 0x8000;
const BASE64 = /^(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?$/;

export function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += AT_ONCE)
    text += String.fromCharCode(...bytes.subarray(i, i + AT_ONCE));
  return btoa(text);
}

/** null for anything but the one way of writing these bytes. */
export function fromBase64(text: string): Uint8Array | null {
  if (!BASE64.test(text)) return null;
  const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return toBase64(bytes) === text ? bytes : null;
}
