import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { VerifyView } from '../../evidence/messages.ts';
import { type Services, ServicesContext } from '../context.ts';
import { handOver } from './handed.ts';
import { Verify } from './Verify.tsx';

afterEach(cleanup);

const MANIFEST = 'ab'.repeat(32);
const VIEW: VerifyView = {
  verdict: 'valid',
  findings: [],
  remarks: [],
  reserved: null,
  name: 'job.zip',
  packet: null,
  bytes: 1,
  sha256: '0'.repeat(64),
  fingerprint: null,
  publicKey: null,
  signer: null,
  manifestSha256: MANIFEST,
  record: null,
  additions: [],
  readable: false,
  kept: false,
};

/** The page as a certificate's code opens it, with a file that was verified. */
async function open(expected: string) {
  const services = { evidence: async () => VIEW, fail: () => undefined };
  handOver(new File(['x'], 'job.zip'));
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <Verify expected={expected} />
    </ServicesContext.Provider>
  ));
  await screen.findByTestId('verdict');
  return screen.getByTestId('expected');
}

it('the fingerprint of the code is filled in, and the record of that certificate is told as such', async () => {
  const part = await open(MANIFEST);
  expect((screen.getByTestId('expected-fingerprint') as HTMLInputElement).value).toBe(MANIFEST);
  expect(part.dataset.compared).toBe('same');
  expect(part.querySelector('.strong')).toBeNull();
});

it('another record is told loudly, however well it is signed', async () => {
  const part = await open('cd'.repeat(32));
  expect(part.dataset.compared).toBe('other');
  expect(part.querySelector('[role=alert].strong')).not.toBeNull();
});

it('as a certificate prints it, in groups and capitals; and nothing where nothing is expected', async () => {
  expect((await open(MANIFEST.toUpperCase().replace(/(.{4})/g, '$1 '))).dataset.compared).toBe('same');
  cleanup();
  expect((await open('')).dataset.compared).toBe('');
});
