/// <reference lib="webworker" />
import { createAnswers } from '../../engine/worker/answers.ts';
import { crc32 } from '../../record/crc.ts';
import { SCRIPT_SHA256 } from '../../record/hashing.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import { pieceHandlers } from './handlers.ts';
import type { PieceContract } from './order.ts';
import { handedOver } from './transfer.ts';

// The thin shell: one of the workers that whoever verifies a file starts for it.

const scope = self as unknown as DedicatedWorkerGlobalScope;

function open(file: Blob | string) {
  if (typeof file === 'string') throw new RangeError('names of files are for Node');
  return { source: blobSource(file), close: () => undefined };
}

const answer = createAnswers<PieceContract>({
  handlers: pieceHandlers(open, { hashing: SCRIPT_SHA256, crc32 }),
  codeOf: () => 'refused',
  post: (message) => scope.postMessage(message, handedOver(message)),
  // It hears nothing while it works: it is ended where nobody waits for it any more.
  pause: async () => undefined,
});

scope.addEventListener('message', ({ data }) => void answer(data));
