import { StoreError } from './store.ts';

/**
 * Work on a file or document that may be gone by now: another tab removed it, or it was never made. null when it is
 * gone; every other failure is let through.
 */
export async function unlessMissing<T>(work: () => Promise<T>): Promise<T | null> {
  try {
    return await work();
  } catch (cause) {
    if (cause instanceof StoreError && cause.code === 'missing') return null;
    throw cause;
  }
}
