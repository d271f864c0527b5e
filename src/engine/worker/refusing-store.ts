import { type FileStore, StoreError, type StoreErrorCode } from '../../record/stores/store.ts';

/**
 * Stands in for a file store that could not be opened at all (private window, blocked storage): the guard runs,
 * every attempt to record is refused with the reason, and nothing pretends to be kept.
 */
export function createRefusingStore(code: StoreErrorCode, message: string): FileStore {
  const refuse = async (): Promise<never> => {
    throw new StoreError(code, message);
  };
  return {
    open: refuse,
    readAll: refuse,
    source: refuse,
    remove: refuse,
    list: async () => [],
    room: async () => 0,
    persisted: async () => false,
  };
}
