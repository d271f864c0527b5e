import type { Folder, HandleStore } from '../folder.ts';

/** Handles of the browser's can be kept among the documents; the fake's can't be cloned. */
export function handlesIn(): HandleStore {
  let kept: Folder | null = null;
  return {
    get: async () => kept,
    async set(folder) {
      kept = folder;
    },
  };
}
