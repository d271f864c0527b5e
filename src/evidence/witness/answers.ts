/** The evidence worker's answers about the witness log. */

import type { FileProof } from '../../record/verify-witness.ts';
import { compareWithFile, compareWithLog } from '../../record/witness/compare.ts';
import type { EvidenceDeps } from '../deps.ts';
import type { Folder } from '../office/folder.ts';
import type { Trust } from '../signers.ts';
import { visitFolder } from './folder-exchange.ts';
import { logFile, logView } from './log-view.ts';
import type { WitnessAnswers, WitnessRequest } from './messages.ts';
import type { OwnLog } from './own-log.ts';
import { takeStamp } from './taking.ts';

type Answering = {
  readonly [Q in WitnessRequest['q']]: (
    request: Extract<WitnessRequest, { q: Q }>,
  ) => Promise<WitnessAnswers[Q]>;
};

export interface Around {
  trust(): Promise<Trust>;
  /** The shared folder. @throws where none is chosen, or it is away */
  folder(): Promise<Folder>;
  /** What the file that was verified last carries of a log; null: no file, or nothing. */
  opened(): FileProof | null;
}

export const witnessAnswers = (deps: EvidenceDeps, log: OwnLog, around: Around): Answering => ({
  log: async () => logView(deps, log, await around.trust()),
  'log-file': () => logFile(log),
  async compare({ text, with: what }) {
    if (what === 'log')
      return compareWithLog(deps.crypto, text, (await log.key()).publicKey, await log.tree());
    const opened = around.opened();
    return opened === null ? null : compareWithFile(deps.crypto, text, opened);
  },
  'office-witness': async ({ countersign }) => visitFolder(deps, log, await around.folder(), countersign),
  'take-stamp': async ({ checkpoint, response }) =>
    takeStamp(deps, log, checkpoint, new Uint8Array(await response.slice(0, 70_000).arrayBuffer())),
});
