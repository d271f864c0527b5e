/**
 * Samples of a source that does not speak the device protocol: made of raw evidence by a reading map, all of which stands in
 * the pages. Made again here, so that nobody signs other counts than what came over the line gives.
 */
import { parseReadingMap } from '../job/documents.ts';
import type { MapKind, ReadingMap } from '../job/reading-map.ts';
import type { ChannelFrame, SampleFrame } from '../link/frames.ts';
import { isSameScale } from '../link/greeting.ts';
import { introduce } from '../link/maps/introduce.ts';
import { LACKS_BESIDE, LACKS_OF } from '../link/maps/lacks.ts';
import type { Raw } from '../link/maps/raw.ts';
import { createTranslate, type Translate } from '../link/maps/translate.ts';
import type { Finding, Remark } from './findings.ts';
import type { FrameEntry } from './log.ts';
import { EntryCursor, type Page } from './page.ts';
import type { RunVisitor } from './reader.ts';

type Translation = Extract<Finding, { f: 'translation' }>;
type ByMap = Extract<Remark, { r: 'read-by-map' }>;

/** What is read now. */
interface Reading {
  readonly translate: Translate;
  readonly channels: readonly ChannelFrame[];
}

function readingBy(map: ReadingMap): Reading | null {
  const parsed = parseReadingMap(map);
  if (!parsed.ok) return null;
  return { translate: createTranslate(parsed.value), channels: introduce(parsed.value, 0, 0).channels };
}

const isMadeOf = ({ counts, status }: SampleFrame, raw: Raw, { translate }: Reading): boolean => {
  const again = translate(raw).counts;
  return status === 0 && again.length === counts.length && again.every((c, i) => c === counts[i]);
};

/** What is read of one source. */
class Source {
  reading: Reading | null = null;
  readonly kinds = new Set<MapKind>();

  holds({ frame, map, raw }: Omit<FrameEntry, 'l'>): boolean {
    switch (frame.t) {
      case 'H':
        if (map === undefined) this.reading = null;
        else {
          this.reading = readingBy(map);
          this.kinds.add(map.is);
        }
        return map === undefined || (this.reading !== null && frame.deviceId === map.deviceId);
      case 'C': {
        const mine = this.reading?.channels[frame.index];
        return this.reading === null || (mine !== undefined && isSameScale([mine], [frame]));
      }
      case 'S':
        if (this.reading === null || raw === undefined) return this.reading === null && raw === undefined;
        return isMadeOf(frame, raw, this.reading);
      default:
        // Such a source says nothing of the kind.
        return this.reading === null;
    }
  }
}

/** Is handed every page. */
export class MapSaid implements RunVisitor {
  private readonly sources = { frame: new Source(), beside: new Source() };
  private found: Translation | null = null;

  page(page: Page): void {
    const { frame, beside } = this.sources;
    // Of a device of the protocol there is nothing to make again, and a long run has millions of samples.
    const reads = frame.reading !== null || beside.reading !== null;
    if (!reads && !page.placed.some(({ entry }) => isByMap(entry))) return;
    const entries = new EntryCursor(page);
    for (let entry = entries.next(); entry !== null; entry = entries.next())
      if ((entry.l === 'frame' || entry.l === 'beside') && !this.sources[entry.l].holds(entry))
        this.note(page, entry.tUs);
  }

  private note({ header }: Page, tUs: number): void {
    this.found =
      this.found === null
        ? { f: 'translation', count: 1, page: header.index, tUs }
        : { ...this.found, count: this.found.count + 1 };
  }

  /** Asked of sound pages only: the map may stand in those that were damaged. */
  findings(): readonly Translation[] {
    return this.found === null ? [] : [this.found];
  }

  remarks(): readonly ByMap[] {
    const { frame, beside } = this.sources;
    return [
      ...[...frame.kinds].sort().map((map): ByMap => ({ r: 'read-by-map', map, lacks: LACKS_OF[map] })),
      ...[...beside.kinds]
        .sort()
        .map((map): ByMap => ({ r: 'read-by-map', map, lacks: LACKS_BESIDE[map], beside: true })),
    ];
  }
}

const isByMap = (entry: Page['placed'][number]['entry']): boolean =>
  entry.l === 'raw' ||
  (entry.l === 'frame' && entry.map !== undefined) ||
  (entry.l === 'beside' && (entry.map !== undefined || entry.raw !== undefined));
