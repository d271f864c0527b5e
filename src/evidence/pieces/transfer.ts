import type { FromWorker } from '../../engine/worker/contract.ts';
import { buffersOf } from './columns.ts';
import type { PieceContract, PieceMade } from './order.ts';

/** What of a message is handed over instead of copied. */
export function handedOver(message: FromWorker<PieceContract>): ArrayBuffer[] {
  if (message.m !== 'answer' || !message.ok) return [];
  const { trace } = message.value as Partial<PieceMade>;
  if (trace == null) return [];
  const groups = trace.groups.map(({ bytes }) => bytes.buffer);
  return [...buffersOf(trace.readings), ...groups] as ArrayBuffer[];
}
