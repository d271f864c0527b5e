import { parentPort } from 'node:worker_threads';
import { createAnswers } from '../engine/worker/answers.ts';
import { pieceHandlers } from '../evidence/pieces/handlers.ts';
import type { PieceContract } from '../evidence/pieces/order.ts';
import { handedOver } from '../evidence/pieces/transfer.ts';
import { openSource } from './file-source.ts';
import { nodeCrypto } from './node-crypto.ts';

// A thread of whoever verifies a file: is told its name.

function open(file: Blob | string) {
  if (typeof file !== 'string') throw new RangeError('a file is named here');
  const source = openSource(file);
  return { source, close: () => source.close() };
}

const answer = createAnswers<PieceContract>({
  handlers: pieceHandlers(open, nodeCrypto()),
  codeOf: () => 'refused',
  post: (message) => parentPort?.postMessage(message, handedOver(message)),
  pause: async () => undefined,
});

parentPort?.on('message', (message) => void answer(message));
