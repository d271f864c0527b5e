/** The debrief of a practice run, made of its pages. */

import type { Setup } from '../job/setup.ts';
import { debriefOf } from '../practice/debrief.ts';
import type { Debrief, DebriefInput } from '../practice/shapes.ts';
import { Inventory } from '../record/derived-files.ts';
import type { RecordView } from '../record/job-file.ts';
import type { LogEntry } from '../record/log.ts';
import { scanPages } from '../record/page-scanner.ts';
import type { WatchEvent } from '../watch/events.ts';
import { lastLimited } from './numbers.ts';

/** What the practice rig and the crew said in a run. */
export class Said {
  readonly said: DebriefInput['said'][number][] = [];
  readonly commands: DebriefInput['commands'][number][] = [];

  take(entry: LogEntry): void {
    if (entry.l === 'command') this.commands.push({ tUs: entry.tUs, command: entry.command });
    if (entry.l === 'notice' && entry.notice.n === 'rig')
      this.said.push({ tUs: entry.tUs, said: entry.notice.said });
  }
}

export function saidOf(entries: readonly LogEntry[]): Said {
  const said = new Said();
  for (const entry of entries) said.take(entry);
  return said;
}

/** The same entries of a run's file; its samples are passed over. */
export function playedIn(pages: Uint8Array): RecordView['played'] {
  const inventory = new Inventory();
  for (const item of scanPages(pages, { chain: false })) if (item.kind === 'page') inventory.page(item.page);
  return inventory.played;
}

export const saidIn = (pages: Uint8Array): Said => saidOf(playedIn(pages));

export interface Played {
  readonly events: readonly WatchEvent[];
  readonly setups: readonly Setup[];
  /** Run clock, µs. */
  readonly firstUs: number;
  readonly lastUs: number;
  readonly ended: boolean;
}

/** null: it was not played on the practice rig. */
export function debriefFor({ said, commands }: Said, run: Played): Debrief | null {
  const limits = lastLimited(run.setups)?.limits ?? null;
  return debriefOf({ ...run, said, commands, limits });
}
