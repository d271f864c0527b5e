/** The part of the contract between page and evidence worker that is about photographs and signatures by hand. */
import type { HandSigned, KeptEnclosed, KeptPhoto } from '../../job/enclosed.ts';

/** Where something is laid: beside a run, with the job that it was opened for; beside a job before any run. */
export interface Beside {
  readonly jobId: string | null;
  readonly runId: string | null;
}

export interface NewPhoto extends Pick<KeptPhoto, 'occasion' | 'utcMs' | 'source' | 'by' | 'note'> {
  readonly file: Blob;
  /** Keeps the file as it is too, with all that it carries. */
  readonly keepOriginal: boolean;
}

export type EnclosedRequest =
  | { readonly q: 'enclosed'; readonly beside: Beside }
  | { readonly q: 'add-photo'; readonly beside: Beside; readonly photo: NewPhoto }
  | {
      readonly q: 'change-photo';
      readonly beside: Beside;
      readonly sha256: string;
      readonly change: Partial<Pick<KeptPhoto, 'occasion' | 'by' | 'note'>>;
    }
  | { readonly q: 'remove-photo'; readonly beside: Beside; readonly sha256: string }
  | { readonly q: 'add-signed'; readonly beside: Beside; readonly signed: Omit<HandSigned, 'utcMs'> }
  | {
      readonly q: 'remove-signed';
      readonly beside: Beside;
      readonly as: HandSigned['as'];
      readonly utcMs: number;
    };

export interface EnclosedAnswers {
  enclosed: KeptEnclosed;
  'add-photo': KeptEnclosed;
  'change-photo': KeptEnclosed;
  'remove-photo': KeptEnclosed;
  'add-signed': KeptEnclosed;
  'remove-signed': KeptEnclosed;
}
