import type {
  EvidenceAnswers,
  EvidenceErrorCode,
  EvidenceRequest,
  FromEvidence,
  ToEvidence,
} from './messages.ts';

/** A request that the evidence worker refused; the code has a text in the catalogue. */
export class EvidenceFault extends Error {
  override readonly name = 'EvidenceFault';
  constructor(
    readonly code: EvidenceErrorCode,
    readonly detail: string,
  ) {
    super(`${code}: ${detail}`);
  }
}

export interface EvidenceClient {
  /** Rejects with an EvidenceFault; when the worker died, with code 'internal'. */
  ask<R extends EvidenceRequest>(
    request: R,
    onProgress?: (share: number) => void,
  ): Promise<EvidenceAnswers[R['q']]>;
}

interface Line {
  postMessage(message: ToEvidence): void;
  terminate(): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<FromEvidence>) => void): void;
  addEventListener(type: 'error' | 'messageerror', listener: (event: Event) => void): void;
}

interface Waiting {
  resolve(value: unknown): void;
  reject(fault: EvidenceFault): void;
  readonly onProgress: ((share: number) => void) | undefined;
}

/** Starts its worker at the first request, and another after one that died (out of memory on a huge file). */
export function createEvidenceClient(open: () => Line): EvidenceClient {
  const waiting = new Map<number, Waiting>();
  let line: Line | null = null;
  let id = 0;

  function died(detail: string): void {
    line?.terminate();
    line = null;
    for (const { reject } of waiting.values()) reject(new EvidenceFault('internal', detail));
    waiting.clear();
  }

  function start(): Line {
    const started = open();
    started.addEventListener('message', ({ data }) => {
      const asked = waiting.get(data.id);
      if (data.m === 'progress') {
        asked?.onProgress?.(data.share);
        return;
      }
      waiting.delete(data.id);
      if (data.ok) asked?.resolve(data.value);
      else asked?.reject(new EvidenceFault(data.code, data.detail));
    });
    started.addEventListener('error', (e) => died(String((e as { message?: unknown }).message ?? 'error')));
    started.addEventListener('messageerror', () => died('a message could not be read'));
    line = started;
    return started;
  }

  return {
    ask(request, onProgress) {
      const message = { id: ++id, request };
      return new Promise((resolve, reject) => {
        waiting.set(message.id, { resolve, reject, onProgress });
        (line ?? start()).postMessage(message);
      });
    },
  };
}

export const startEvidence = (): EvidenceClient =>
  createEvidenceClient(
    () => new Worker(new URL('./evidence.worker.ts', import.meta.url), { type: 'module' }),
  );
