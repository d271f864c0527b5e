/// <reference lib="webworker" />
import { createAnswers } from '../../engine/worker/answers.ts';
import { blobSource } from '../../record/stores/blob-source.ts';
import type { PieceContract } from './order.ts';
import { makePiece } from './piece.ts';
import { handedOver } from './transfer.ts';

// The thin shell: one of the workers that whoever verifies a file starts for it.

const scope = self as unknown as DedicatedWorkerGlobalScope;

const answer = createAnswers<PieceContract>({
  handlers: {
    piece({ file, order }, tell) {
      if (typeof file === 'string') throw new RangeError('names of files are for Node');
      return makePiece(blobSource(file), order, tell);
    },
  },
  codeOf: () => 'refused',
  post: (message) => scope.postMessage(message, handedOver(message)),
  // It hears nothing while it works: it is ended where nobody waits for it any more.
  pause: async () => undefined,
});

scope.addEventListener('message', ({ data }) => void answer(data));
