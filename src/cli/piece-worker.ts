import { parentPort } from 'node:worker_threads';
import { createAnswers } from '../engine/worker/answers.ts';
import type { PieceContract } from '../evidence/pieces/order.ts';
import { makePiece } from '../evidence/pieces/piece.ts';
import { handedOver } from '../evidence/pieces/transfer.ts';
import { openSource } from './file-source.ts';

// A thread of whoever verifies a file: is told its name.

const answer = createAnswers<PieceContract>({
  handlers: {
    async piece({ file, order }, tell) {
      if (typeof file !== 'string') throw new RangeError('a file is named here');
      const source = openSource(file);
      try {
        return await makePiece(source, order, tell);
      } finally {
        source.close();
      }
    },
  },
  codeOf: () => 'refused',
  post: (message) => parentPort?.postMessage(message, handedOver(message)),
  pause: async () => undefined,
});

parentPort?.on('message', (message) => void answer(message));
