import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Plugin } from 'vite';

/**
 * What the built app may not do, said to the browser: it fetches from nowhere but its own origin, runs no script that
 * did not come with it, stands in no frame, and asks for nothing of the machine but serial ports. As an element of the
 * page, so that it holds wherever the folder is served from, and as headers of the preview server, which reach what an
 * element can't: workers, frames around the page, and permissions.
 */

/** The contents of all elements of this name that have one. */
const inline = (html: string, element: 'script' | 'style'): string[] =>
  [...html.matchAll(new RegExp(`<${element}(?:\\s[^>]*)?>([\\s\\S]+?)</${element}>`, 'g'))].map((m) => m[1]!);

const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** The policy of a page with these inline scripts and styles (W3C Content Security Policy, Level 3; Trusted Types). */
export function policyOf(html: string): string {
  const hashes = (element: 'script' | 'style') =>
    inline(html, element)
      .map((text) => ` ${hashOf(text)}`)
      .join('');
  return [
    "default-src 'none'",
    `script-src 'self'${hashes('script')}`,
    `style-src 'self'${hashes('style')}`,
    "img-src 'self' data: blob:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    'trusted-types default',
  ].join('; ');
}

/** Every power that a page may have or be refused, but serial ports, waking and going on sounding. */
const REFUSED = [
  'accelerometer',
  'bluetooth',
  'camera',
  'display-capture',
  'geolocation',
  'gyroscope',
  'hid',
  'local-fonts',
  'magnetometer',
  'microphone',
  'midi',
  'payment',
  'usb',
];

/** A policy for all but pages: what keeps the app for a start without a server fetches its own parts by their names. */
const withoutTypes = (policy: string): string =>
  policy
    .split('; ')
    .filter((rule) => !/trusted-types/.test(rule))
    .join('; ');

/** For the preview server, beside the page's own policy. An element can't say who may frame the page. */
export function headersOf(policy: string | null, isPage = true): Readonly<Record<string, string>> {
  const own = policy === null ? [] : [isPage ? policy : withoutTypes(policy)];
  return {
    'Content-Security-Policy': [...own, "frame-ancestors 'none'"].join('; '),
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Permissions-Policy': ['serial=(self)', ...REFUSED.map((name) => `${name}=()`)].join(', '),
  };
}

const META = /<meta http-equiv="Content-Security-Policy" content="([^"]*)"/;

/** The policy that a built page states of itself; null for a page without. */
export const policyIn = (html: string): string | null => META.exec(html)?.[1] ?? null;

function inPage(): Plugin {
  return {
    name: 'policy-in-page',
    apply: 'build',
    enforce: 'post',
    // When the page is as it will be served: addresses in its styles are filled in after it was transformed.
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const page = bundle['index.html'];
        if (page?.type !== 'asset') throw new Error('no index page to state a policy in');
        const html = String(page.source);
        page.source = html.replace(
          /<meta charset="utf-8"\s*\/?>/,
          // Before everything that it governs.
          (charset) =>
            `${charset}\n    <meta http-equiv="Content-Security-Policy" content="${policyOf(html)}" />`,
        );
      },
    },
  };
}

function inPreview(): Plugin {
  return {
    name: 'policy-in-preview',
    configurePreviewServer(server) {
      const { root, build } = server.config;
      const page = path.resolve(root, build.outDir, 'index.html');
      const policy = existsSync(page) ? policyIn(readFileSync(page, 'utf8')) : null;
      server.middlewares.use((request, response, next) => {
        const isPage = !/\.(?:js|json|webmanifest|svg|woff2|css)(?:\?|$)/.test(request.url ?? '');
        for (const [name, value] of Object.entries(headersOf(policy, isPage)))
          response.setHeader(name, value);
        next();
      });
    },
  };
}

export const walls = (): Plugin[] => [inPage(), inPreview()];
