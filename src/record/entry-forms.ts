/** Whether what stands in pages that may come from anywhere has the form of its kind. */
import { parseReadingMap } from '../job/documents.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { isCommand, isEvent, isNotice } from './entry-schemas.ts';
import type { TextEntry } from './entry-text.ts';
import type { EntryKind, Finding } from './findings.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';

function misfit(entry: TextEntry): EntryKind | null {
  switch (entry.l) {
    case 'setup':
      return parseSetup(entry.setup).ok ? null : 'setup';
    case 'command':
      return isCommand(entry.command) ? null : 'command';
    case 'notice':
      return isNotice(entry.notice) ? null : 'notice';
    case 'frame':
    case 'beside':
      // Its line was read by its own codec already.
      return entry.map === undefined || parseReadingMap(entry.map).ok ? null : 'map';
    case 'stray':
    case 'beside-stray':
    case 'raw':
    // Whether a state is one, judging tells.
    case 'state':
      return null;
    default:
      return entry satisfies never;
  }
}

/** Is handed every page and counts what is not of the form that this version knows, by kind. */
export class EntryForms implements RunVisitor {
  private readonly found = new Map<EntryKind, Extract<Finding, { f: 'entries' }>>();

  page(page: Page): void {
    for (const { entry } of page.placed) {
      const what = misfit(entry);
      if (what !== null) this.note(what, page, entry.tUs);
    }
    for (const event of page.events) if (!isEvent(event)) this.note('event', page, event.tUs);
  }

  get findings(): readonly Extract<Finding, { f: 'entries' }>[] {
    return [...this.found.values()];
  }

  private note(what: EntryKind, { header }: Page, tUs: number): void {
    const before = this.found.get(what);
    this.found.set(
      what,
      before === undefined
        ? { f: 'entries', what, count: 1, page: header.index, tUs }
        : { ...before, count: before.count + 1 },
    );
  }
}
