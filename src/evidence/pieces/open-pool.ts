import type { PieceContract } from './order.ts';
import { createPool, type Pool } from './pool.ts';

/** Each takes some 50 MB; whoever verifies is at work on a core of its own meanwhile. */
const MOST = 3;

/** Workers of the browser's, as many as it has cores; null: there is one core, or workers have no workers here. */
export function openPiecePool(): Pool<PieceContract> | null {
  const size = Math.min(MOST, navigator.hardwareConcurrency);
  if (size < 2 || typeof Worker === 'undefined') return null;
  return createPool<PieceContract>({
    size,
    open: () => new Worker(new URL('./piece.worker.ts', import.meta.url), { type: 'module' }),
    later(ms, call) {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
  });
}
