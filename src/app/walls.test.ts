import { expect, it } from 'vitest';
import { headersOf, policyIn, policyOf } from './walls.ts';

const PAGE = '<style>a{}</style><script>1</script><script type="module" src="./x.js"></script>';

it('names the inline script and style by their hashes, and lets no other in', () => {
  const policy = policyOf(PAGE);
  // printf 1 | openssl dgst -sha256 -binary | base64
  expect(policy).toContain("script-src 'self' 'sha256-a4ayc/80/OGda4BO/1o/V0etpOqiLx1JwB5S3beHW0s=';");
  expect(policy).not.toMatch(/unsafe|\*|https?:/);
  expect(policy).toContain("default-src 'none'");
  expect(policy.match(/sha256-/g)).toHaveLength(2);
});

it('the headers say what the page says, and who may frame it: nobody', () => {
  const policy = policyOf(PAGE);
  expect(policyIn(`<head><meta http-equiv="Content-Security-Policy" content="${policy}" /></head>`)).toBe(
    policy,
  );
  const headers = headersOf(policy);
  expect(headers['Content-Security-Policy']).toBe(`${policy}; frame-ancestors 'none'`);
  expect(headersOf(policy, false)['Content-Security-Policy']).not.toContain('trusted-types');
  expect(headersOf(policy, false)['Content-Security-Policy']).toContain(
    "default-src 'none'; script-src 'self'",
  );
  expect(headers['X-Content-Type-Options']).toBe('nosniff');
  expect(headers['Permissions-Policy']).toContain('serial=(self), ');
  expect(headers['Permissions-Policy']).toContain('camera=()');
  expect(headersOf(policyIn('<p>no policy</p>'))['Content-Security-Policy']).toBe("frame-ancestors 'none'");
});
