/**
 * What the list says of a kept file, taken down when it was kept, so that a hundred files need not be checked to
 * be listed. Only a label: whoever opens the record has the file itself checked.
 */
import type { Manifest } from '../record/manifest.ts';
import type { StoredDocument } from '../record/stores/store.ts';
import type { EvidenceDeps } from './deps.ts';
import { type Account, type ArchiveEntry, ceilingOf, type Sketch } from './messages.ts';
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
  readonly cure: Account['cure']['state'];
  readonly ceiling: NonNullable<ArchiveEntry['ceiling']>;
}

/** As it rests. The picture is text: a list of thousands is read whole, and what it does not draw costs it a copy only. */
interface KeptLabel extends FileLabel {
  readonly sketch: string;
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
    cure: sketch.account.cure.state,
    ceiling: ceilingOf(sketch.account),
  };
}

const isLabel = (v: unknown): v is KeptLabel => {
  const l = v as Partial<KeptLabel> | null;
  return (
    typeof l === 'object' &&
    l !== null &&
    [l.title, l.site, l.client, l.crew, l.packer, l.fingerprint, l.cure, l.ceiling, l.sketch].every(
      (t) => typeof t === 'string',
    ) &&
    [l.openedUtcMs, l.seconds, l.alarms, l.gaps, l.sealedUtcMs].every((n) => typeof n === 'number')
  );
};

/** JSON has no number for a gap. */
function sketchIn(text: string): Sketch | null {
  const s = JSON.parse(text) as Sketch | null;
  // One of before a figure was told is made up from the file again.
  if (s?.numbers?.overrides === undefined || s.account?.underFloor === undefined) return null;
  const gaps = (column: readonly (number | null)[]) => column.map((v) => v ?? Number.NaN);
  const { course } = s;
  return course === null ? s : { ...s, course: { ...course, min: gaps(course.min), max: gaps(course.max) } };
}

/** The kept file's course and figures; null: they are to be made up from the file. */
export async function readSketch(deps: EvidenceDeps, sha256: string): Promise<Sketch | null> {
  const body = (await deps.documents.get('review', idOf(sha256)))?.body;
  return isLabel(body) ? sketchIn(body.sketch) : null;
}

/** The labels among documents of the kind 'review': asked for one by one, two thousand take seconds. */
export function labelsIn(reviews: readonly StoredDocument[]): (sha256: string) => FileLabel | null {
  const bodies = new Map(reviews.map(({ id, body }) => [id, body]));
  return (sha256) => {
    const body = bodies.get(idOf(sha256));
    if (!isLabel(body)) return null;
    const { sketch: _, ...label } = body;
    return label;
  };
}

export async function writeLabel(
  deps: EvidenceDeps,
  sha256: string,
  label: FileLabel,
  sketch: Sketch,
): Promise<void> {
  const resting = await deps.documents.get('review', idOf(sha256));
  await deps.documents.put({
    kind: 'review',
    id: idOf(sha256),
    revision: resting?.revision ?? 0,
    savedUtcMs: deps.utcMs(),
    body: { ...label, sketch: JSON.stringify(sketch) } satisfies KeptLabel,
  });
}

export const removeLabel = (deps: EvidenceDeps, sha256: string): Promise<void> =>
  deps.documents.remove('review', idOf(sha256));
