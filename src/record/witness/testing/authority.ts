/** A little authority for time stamps (RFC 3161) with openssl, its keys made for one test. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

export interface Authority {
  /** The root's certificate, which `openssl ts -verify -CAfile` takes. */
  readonly pem: string;
  /** @throws Error where openssl gives none */
  answer(request: Uint8Array): Uint8Array;
  /** What `openssl ts -verify` says of it, for a file with the text. */
  verify(response: Uint8Array, text: string): string;
}

const CONFIG = `[ req ]
distinguished_name = dn
[ dn ]
[ root ]
basicConstraints = critical,CA:TRUE
keyUsage = critical,keyCertSign
[ stamps ]
keyUsage = critical,digitalSignature
extendedKeyUsage = critical,timeStamping
[ tsa ]
default_tsa = one
[ one ]
serial = ./serial
signer_cert = ./tsa.pem
certs = ./tsa.pem
signer_key = ./tsa.key
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256
accuracy = secs:1
ess_cert_id_alg = sha256
`;

/** @param folder of the test's own */
export function createAuthority(folder: string): Authority {
  const openssl = (...args: string[]) => spawnSync('openssl', args, { cwd: folder, encoding: 'utf8' });
  const at = (name: string): string => path.join(folder, name);
  writeFileSync(at('tsa.cnf'), CONFIG);
  writeFileSync(at('serial'), '01\n');
  function made(...args: string[]): void {
    const { status, stderr } = openssl(...args);
    if (status !== 0) throw new Error(stderr);
  }
  const key = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:prime256v1', '-nodes', '-config', 'tsa.cnf'];
  made(
    'req',
    '-x509',
    ...key,
    '-keyout',
    'ca.key',
    '-out',
    'ca.pem',
    '-subj',
    '/CN=Root of a test',
    '-extensions',
    'root',
  );
  made('req', ...key, '-keyout', 'tsa.key', '-out', 'tsa.csr', '-subj', '/CN=Authority of a test');
  const by = [
    '-CA',
    'ca.pem',
    '-CAkey',
    'ca.key',
    '-CAcreateserial',
    '-extfile',
    'tsa.cnf',
    '-extensions',
    'stamps',
  ];
  made('x509', '-req', '-in', 'tsa.csr', '-out', 'tsa.pem', '-days', '2', ...by);
  return {
    pem: at('ca.pem'),
    answer(request) {
      writeFileSync(at('asked.tsq'), request);
      made(
        'ts',
        '-reply',
        '-config',
        'tsa.cnf',
        '-section',
        'one',
        '-queryfile',
        'asked.tsq',
        '-out',
        'answer.tsr',
      );
      return new Uint8Array(readFileSync(at('answer.tsr')));
    },
    verify(response, text) {
      writeFileSync(at('given.tsr'), response);
      const done = openssl('ts', '-verify', '-data', text, '-in', 'given.tsr', '-CAfile', 'ca.pem');
      return done.stdout + done.stderr;
    },
  };
}
