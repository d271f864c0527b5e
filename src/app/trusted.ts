/**
 * Where the browser has Trusted Types, nothing becomes an element, a script's or a worker's address that this policy
 * does not let pass: markup without a script in any form, addresses of this origin. The page makes markup only of its
 * own templates and of drawings and papers that are escaped where they are made; this is the second lock.
 * (W3C Trusted Types; the default policy is asked for every string that reaches such a place.)
 */

/** Elements that run, fetch or frame; attributes that run; addresses that run. */
const RUNS =
  /<\/?\s*(?:script|iframe|frame|object|embed|base|link|form|portal)\b|[\s"'/]on[a-z]+\s*=|(?:javascript|vbscript|data\s*:\s*text\/html)\s*:?/i;

/** The markup, if nothing in it runs. @throws TypeError else: the browser lets the whole assignment fail */
export function plainMarkup(html: string): string {
  if (RUNS.test(html)) throw new TypeError('markup that could run');
  return html;
}

/** The address, if it is of this origin. @throws TypeError else */
export function ownAddress(address: string, base: string): string {
  if (new URL(address, base).origin !== new URL(base).origin) throw new TypeError('an address elsewhere');
  return address;
}

interface TrustedTypes {
  createPolicy(
    name: 'default',
    rules: {
      createHTML(html: string): string;
      createScriptURL(address: string): string;
    },
  ): unknown;
}

const trustedTypes = (globalThis as { trustedTypes?: TrustedTypes }).trustedTypes;
trustedTypes?.createPolicy('default', {
  createHTML: plainMarkup,
  createScriptURL: (address) => ownAddress(address, location.href),
});
