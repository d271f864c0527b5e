import { expect, it } from 'vitest';
import { bytesSource } from './byte-source.ts';
import { joinBytes } from './bytes.ts';
import { crc32 } from './crc.ts';
import { recordInPacket } from './packet-in.ts';
import { zipWriter } from './zip-writer.ts';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

function zipOf(members: Readonly<Record<string, string>>): Uint8Array {
  const zip = zipWriter();
  const parts: Uint8Array[] = [];
  for (const [name, text] of Object.entries(members)) {
    const bytes = ascii(text);
    parts.push(zip.add(name, crc32(bytes), bytes.length), bytes);
  }
  return joinBytes([...parts, ...zip.finish()]);
}
const found = (bytes: Uint8Array) => recordInPacket(bytesSource(bytes));

it('the one record file of a packet is found, and nothing else is taken for one', async () => {
  const packet = zipOf({ 'record/job.steadybar.zip': 'RECORD', 'certificate.html': '<p>' });
  const inner = await found(packet);
  expect(inner?.name).toBe('job.steadybar.zip');
  expect(packet.subarray(inner!.start, inner!.start + inner!.size)).toEqual(ascii('RECORD'));
  // So much as came of one that broke off in it.
  expect(await found(packet.subarray(0, inner!.start + 3))).toEqual({ ...inner, size: 3 });
  expect(await found(zipOf({ 'manifest.json': '{}', 'trace.csv': '' }))).toBeNull();
  expect(await found(zipOf({ 'record/job.json': '{}' }))).toBeNull();
  // Of two nobody knows which one is meant.
  expect(await found(zipOf({ 'record/a.zip': 'A', 'record/b.zip': 'B' }))).toBeNull();
  expect(await found(ascii('no zip at all'))).toBeNull();
});

it('what is damaged behind the record takes nothing from it', async () => {
  const packet = zipOf({ 'record/job.zip': 'RECORD', 'certificate.html': '<p>' });
  packet[packet.length - 1]! ^= 1;
  expect((await found(packet))?.name).toBe('job.zip');
  packet[0]! ^= 1;
  expect(await found(packet)).toBeNull();
});
