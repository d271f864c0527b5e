import type { Answers, Request, RunDetail, TraceWindow } from '../engine/messages.ts';
import { RequestError } from '../engine/worker/request-error.ts';
import type { EvidenceAnswers, EvidenceRequest } from '../evidence/messages.ts';
import type { RunAccess } from '../screens/context.ts';

type AskEngine = <R extends Request>(request: R) => Promise<Answers[R['q']]>;
type AskEvidence = <R extends EvidenceRequest>(request: R) => Promise<EvidenceAnswers[R['q']]>;

/** A run is taken up again without waiting longer for its files: then its trace is kept in memory, ms. */
const LET_GO_MS = 1000;

/**
 * Whom the page asks about a run: the engine gives of the open one no more than its pages and its picture, for the
 * guard waits meanwhile; all that is made of pages, and every other run, is the evidence worker's.
 * @param openRun the run that is recorded now
 */
export function createRunAccess(
  engine: AskEngine,
  evidence: AskEvidence,
  openRun: () => string | null,
): RunAccess {
  // The evidence worker holds the files of the run that it looked at last.
  let held = false;

  async function pages(runId: string): Promise<Blob> {
    const pieces: Blob[] = [];
    for (let from = 0; ; ) {
      const { bytes } = await engine({ q: 'run-pages', runId, from });
      if (bytes.length === 0) return new Blob(pieces);
      pieces.push(new Blob([bytes as Uint8Array<ArrayBuffer>]));
      from += bytes.length;
    }
  }

  async function letGo(): Promise<void> {
    await evidence({ q: 'let-go' }).then(
      () => {
        held = false;
      },
      () => undefined,
    );
  }

  async function openDetail(runId: string): Promise<RunDetail | null> {
    const outline = await evidence({ q: 'pages-outline', pages: await pages(runId) });
    const summary = (await engine({ q: 'runs' })).find((r) => r.runId === runId);
    return summary === undefined ? null : { summary, ...outline };
  }

  /** The engine's answer while the run is open. It may have been closed since the page last heard: then it is a saved one. */
  async function whileOpen<T>(
    runId: string,
    open: () => Promise<T | null>,
    saved: () => Promise<T>,
  ): Promise<T> {
    if (openRun() !== runId) return saved();
    const found = await open().catch((cause: unknown) => {
      if (cause instanceof RequestError && cause.code === 'no-run') return null;
      throw cause;
    });
    return found ?? saved();
  }

  return {
    openPages: pages,
    detail: (runId, check = false) =>
      whileOpen(
        runId,
        () => openDetail(runId),
        () => evidence({ q: 'run', runId, check }),
      ),
    window: (runId, fromS, toS, points) =>
      whileOpen<TraceWindow>(
        runId,
        () => engine({ q: 'live-window', runId, fromS, toS, points }),
        () => {
          held = true;
          return evidence({ q: 'run-window', runId, fromS, toS, points });
        },
      ),
    capture: (runId) =>
      whileOpen(
        runId,
        async () => evidence({ q: 'pages-capture', pages: await pages(runId) }),
        () => evidence({ q: 'run-capture', runId }),
      ),
    async remove(runId) {
      await evidence({ q: 'remove-run', runId });
      await engine({ q: 'remove-document', kind: 'seal', id: runId });
    },
    async resume(runId) {
      if (held) await Promise.race([letGo(), new Promise((resolve) => setTimeout(resolve, LET_GO_MS))]);
      await engine({ q: 'resume-run', runId });
    },
  };
}
