/** The part of the contract between page and evidence worker that is about runs of this tablet. */
import type { RunDetail, TraceWindow } from '../../engine/messages.ts';

/** What runs of this tablet are looked at by, and what is made of pages that nobody has put to rest yet. */
export type SavedRunRequest =
  /** `check` reads and checks the whole file; else a closed run is answered from what the last look found. */
  | { readonly q: 'run'; readonly runId: string; readonly check?: boolean }
  | {
      readonly q: 'run-window';
      readonly runId: string;
      readonly fromS: number;
      readonly toS: number;
      readonly points: number;
    }
  | { readonly q: 'run-capture'; readonly runId: string }
  | { readonly q: 'remove-run'; readonly runId: string }
  /** The run that was looked at is to be taken up again. */
  | { readonly q: 'let-go' }
  | { readonly q: 'pages-outline'; readonly pages: Blob }
  | { readonly q: 'pages-capture'; readonly pages: Blob };

export interface SavedRunAnswers {
  run: RunDetail;
  'run-window': TraceWindow;
  /** The very bytes that the device sent, rebuilt from the log. */
  'run-capture': Blob;
  'remove-run': null;
  'let-go': null;
  'pages-outline': Omit<RunDetail, 'summary'>;
  'pages-capture': Blob;
}
