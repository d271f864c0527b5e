/**
 * Counts what the worker waits for of its storage. A disk takes its own time whatever the clock is told to do: while
 * time passes fast the next call waits until the disk has answered, else the engine would think it dead.
 */

/** An answer that never comes holds nothing up for longer, ms of real time. */
const PATIENCE_MS = 3000;

export interface Storage {
  readonly waits: boolean;
  /** Resolves when nothing is waited for. */
  quiet(): Promise<void>;
}

type Method = (...args: unknown[]) => Promise<unknown>;

export function watchStorage(nowMs: () => number, later: (call: () => void, ms: number) => void): Storage {
  let waiting = 0;
  const counted = <T>(work: Promise<T>): Promise<T> => {
    waiting++;
    const done = () => {
      waiting--;
    };
    work.then(done, done);
    return work;
  };

  function wrap(prototype: object, names: readonly string[]): void {
    for (const name of names) {
      const own = (prototype as Record<string, Method>)[name];
      if (own === undefined) continue;
      (prototype as Record<string, Method>)[name] = function (this: unknown, ...args) {
        return counted(own.apply(this, args));
      };
    }
  }
  wrap(FileSystemDirectoryHandle.prototype, ['getFileHandle', 'getDirectoryHandle', 'removeEntry']);
  wrap(FileSystemFileHandle.prototype, ['getFile', 'createSyncAccessHandle']);

  const happens = (on: EventTarget, names: readonly string[]) =>
    new Promise<void>((resolve) => {
      for (const name of names) on.addEventListener(name, () => resolve(), { once: true });
    });
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (...args) {
    const made = transaction.apply(this, args);
    void counted(happens(made, ['complete', 'abort', 'error']));
    return made;
  };

  return {
    get waits() {
      return waiting > 0;
    },
    async quiet() {
      for (const until = nowMs() + PATIENCE_MS; waiting > 0 && nowMs() < until; )
        await new Promise<void>((resolve) => later(resolve, 1));
    },
  };
}
