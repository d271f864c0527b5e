import { type ZipMember, zipChunks } from '../zip.ts';
import { join } from './join.ts';

/** A zip file in one piece. */
export const zipBytes = (members: readonly ZipMember[]): Uint8Array => join(zipChunks(members));
