/**
 * What the list says of a kept file, taken down when it was kept, so that a hundred files need not be checked to
 * be listed. Only a label: whoever opens the record has the file itself checked.
 */
import type { Manifest } from '../record/manifest.ts';
import type { EvidenceDeps } from './deps.ts';
import type { Sketch } from './messages.ts';
import { summaryOf } from './opened-records.ts';
import { bundleIn } from './papers.ts';

export interface FileLabel {
  readonly title: string;
  readonly site: string;
  readonly client: string;
  readonly crew: string;
  readonly packer: string;
  readonly state: 'interrupted' | 'ended';
  readonly openedUtcMs: number;
  readonly seconds: number;
  readonly peakBar: number | null;
  readonly alarms: number;
  readonly gaps: number;
  readonly sealedUtcMs: number;
  readonly fingerprint: string;
  /** null in labels of before there were any: it is made up from the file. */
  readonly sketch: Sketch | null;
}

const idOf = (sha256: string): string => `label-${sha256}`;

/** What the job's papers say for the list. */
export function about(papers: unknown): Pick<FileLabel, 'site' | 'client' | 'crew' | 'packer'> {
  const bundle = bundleIn(papers);
  return {
    site: bundle?.job.site ?? '',
    client: bundle?.job.client ?? '',
    crew: bundle?.job.crew ?? '',
    packer: bundle?.packer?.document.name ?? '',
  };
}

export function labelFor(manifest: Manifest, sketch: Sketch): FileLabel {
  const { peakBar } = sketch.numbers;
  const { title, state, openedUtcMs, seconds, alarms, gaps } = summaryOf(manifest, peakBar);
  return {
    title,
    ...about(manifest.job),
    state: state === 'interrupted' ? 'interrupted' : 'ended',
    openedUtcMs,
    seconds,
    peakBar,
    alarms,
    gaps,
    sealedUtcMs: manifest.sealedUtcMs,
    fingerprint: manifest.signer.fingerprint,
    sketch,
  };
}

const isLabel = (v: unknown): v is FileLabel => {
  const l = v as Partial<FileLabel> | null;
  return (
    typeof l === 'object' &&
    l !== null &&
    [l.title, l.site, l.client, l.crew, l.packer, l.fingerprint].every((t) => typeof t === 'string') &&
    [l.openedUtcMs, l.seconds, l.alarms, l.gaps, l.sealedUtcMs].every((n) => typeof n === 'number')
  );
};

/** One of before a figure was told is made up from the file again. */
const isSketch = (s: Sketch | null | undefined): s is Sketch =>
  s?.numbers?.overrides !== undefined && s.account?.underFloor !== undefined;

export async function readLabel(deps: EvidenceDeps, sha256: string): Promise<FileLabel | null> {
  const body = (await deps.documents.get('review', idOf(sha256)))?.body;
  return isLabel(body) ? { ...body, sketch: isSketch(body.sketch) ? body.sketch : null } : null;
}

export async function writeLabel(deps: EvidenceDeps, sha256: string, label: FileLabel): Promise<void> {
  const resting = await deps.documents.get('review', idOf(sha256));
  await deps.documents.put({
    kind: 'review',
    id: idOf(sha256),
    revision: resting?.revision ?? 0,
    savedUtcMs: deps.utcMs(),
    body: label,
  });
}

export const removeLabel = (deps: EvidenceDeps, sha256: string): Promise<void> =>
  deps.documents.remove('review', idOf(sha256));
