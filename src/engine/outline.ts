import type { ReadingMap } from '../job/reading-map.ts';
import type { Setup } from '../job/setup.ts';
import type { ChannelFrame, HelloFrame } from '../link/frames.ts';
import { isSameScale } from '../link/greeting.ts';
import type { ByteSource } from '../record/byte-source.ts';
import { readRun } from '../record/reader.ts';
import { chainEnd, runFileNames } from '../record/recovery.ts';
import type { FileStore } from '../record/stores/store.ts';
import type { PageFault } from '../record/types.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { RunDetail } from './messages.ts';

/** What a saved run's screen needs before its first picture, without the picture. */
export type Outline = Omit<RunDetail, 'summary'>;

interface Said {
  readonly hello: HelloFrame;
  readonly map: ReadingMap | null;
  readonly channels: ChannelFrame[];
}

const isSame = (a: Said, b: Said): boolean =>
  a.hello.deviceId === b.hello.deviceId && isSameScale(a.channels, b.channels);

/** Reads a run's file from end to end, every CRC checked: half a second for twelve hours at 50 Hz. */
export async function outlineOf(source: ByteSource): Promise<Outline> {
  const setups: Setup[] = [];
  const events: WatchEvent[] = [];
  /**
   * Newest hello of the run's device, and of another one or of its own with another scale: only where that was taken for
   * the run is it the run's.
   */
  const said: { own: Said | null; other: Said | null; newest: Said | null } = {
    own: null,
    other: null,
    newest: null,
  };
  const scan = await readRun(
    source,
    {
      page(page) {
        for (const { entry } of page.placed) {
          if (entry.l === 'setup') setups.push(entry.setup);
          if (entry.l !== 'frame') continue;
          if (entry.frame.t === 'H') {
            said.newest = { hello: entry.frame, channels: [], map: entry.map ?? null };
            said.own ??= said.newest;
          } else if (entry.frame.t === 'C' && said.newest !== null) {
            said.newest.channels.push(entry.frame);
            if (said.newest.channels.length < said.newest.hello.channels) continue;
            said[isSame(said.own ?? said.newest, said.newest) ? 'own' : 'other'] = said.newest;
          }
        }
        for (const event of page.events) {
          events.push(event);
          if (event.e === 'device' && event.what === 'taken') said.own = said.other;
        }
      },
    },
    { chain: false },
  );
  const firstUs = scan.firstSampleUs ?? scan.firstUs ?? 0;
  return {
    firstS: 0,
    lastS: (scan.lastUs - firstUs) / 1e6,
    setups,
    firstUs,
    utcMs: scan.head?.utcMs ?? null,
    events,
    hello: said.own?.hello ?? null,
    channels: said.own?.channels ?? [],
    map: said.own?.map ?? null,
    damage: scan.damage.map((d) => ({
      page: d.page,
      what: SHOWN[d.what],
      fromS: d.fromUs === null ? null : (d.fromUs - firstUs) / 1e6,
    })),
  };
}

/** The message's three words for the record's finer ones. */
const SHOWN: Readonly<Record<PageFault, RunDetail['damage'][number]['what']>> = {
  torn: 'torn',
  missing: 'missing',
  crc: 'crc',
  order: 'crc',
  chain: 'crc',
  form: 'crc',
  version: 'crc',
  run: 'crc',
};

interface OutlineFile {
  readonly schema: 'steadybar-outline/3';
  readonly of: PagesKey;
  readonly outline: Outline;
}

/** Which pages an outline was read from: their size, and the end of their chain, which stands for them all. */
interface PagesKey {
  readonly bytes: number;
  /** SHA-256 of the last page, hex. */
  readonly chainEnd: string;
}

/** Of the run's file as it rests, from its last page alone; null when it does not end with a sound one. */
async function keyOf(files: FileStore, runId: string): Promise<PagesKey | null> {
  const name = runFileNames(runId).pages;
  const source = await files.source(name);
  const end = await chainEnd(source);
  return end === null ? null : { bytes: source.size, chainEnd: end };
}

export const outlineName = (runId: string): string => `${runId}.out`;

/**
 * The outline kept beside a closed run's pages, so that the picture need not wait for the whole file to be checked.
 * A convenience like the side files: null where it is missing, torn or of other pages.
 */
export async function loadOutline(files: FileStore, runId: string): Promise<Outline | null> {
  try {
    const text = new TextDecoder().decode(await files.readAll(outlineName(runId)));
    const { schema, of, outline } = JSON.parse(text) as Partial<OutlineFile>;
    if (schema !== 'steadybar-outline/3' || of === undefined || outline === undefined) return null;
    const key = await keyOf(files, runId);
    return key !== null && key.bytes === of.bytes && key.chainEnd === of.chainEnd ? outline : null;
  } catch {
    return null;
  }
}

/** Keeps it where the store lets; nothing hangs on it. @param outline of the run's file as it rests */
export async function saveOutline(files: FileStore, runId: string, outline: Outline): Promise<void> {
  try {
    const of = await keyOf(files, runId);
    if (of === null) return;
    const content: OutlineFile = { schema: 'steadybar-outline/3', of, outline };
    const file = await files.open(outlineName(runId));
    try {
      file.truncate(0);
      file.append(new TextEncoder().encode(JSON.stringify(content)));
      file.flush();
    } finally {
      file.close();
    }
  } catch {
    await files.remove(outlineName(runId)).catch(() => undefined);
  }
}
