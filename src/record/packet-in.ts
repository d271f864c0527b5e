import type { ByteSource } from './byte-source.ts';
import { readZip } from './zip-reader.ts';

const RECORD = /^record\/[^/]+\.zip$/;

/** The stretch of the packet that is the record file. */
export interface PacketRecord {
  /** Of the record file itself. */
  readonly name: string;
  readonly start: number;
  readonly size: number;
}

/**
 * The record file in a client's packet (evidence/packet.ts): whoever is handed a packet verifies the packet. What else lies in it
 * is copies for reading, of which nothing is said. Of a packet that breaks off in it there is so much as came.
 * @returns null: the file is no packet, or it is not plain which record it is about
 */
export async function recordInPacket(file: ByteSource): Promise<PacketRecord | null> {
  // A container that is damaged behind the record takes nothing from it: the record is held against its own seal.
  const { entries, problem } = await readZip(file);
  const found = entries.filter(({ name }) => RECORD.test(name));
  const [only] = found;
  if (found.length > 1) return null;
  if (only !== undefined) return recordAt(only.name, only.start, only.size);
  return problem?.fault === 'truncated' && problem.name !== null && RECORD.test(problem.name)
    ? recordAt(problem.name, problem.offset, file.size - problem.offset)
    : null;
}

const recordAt = (member: string, start: number, size: number): PacketRecord => ({
  name: member.slice(member.indexOf('/') + 1),
  start,
  size,
});
