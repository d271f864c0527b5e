/// <reference types="vite-plugin-pwa/client" />
import { render } from 'solid-js/web';
import type { Wording } from '../job/wording.ts';
import { PAGE } from '../words/page.ts';
import { fetchLive } from './Page.tsx';
import { Shell } from './Shell.tsx';
import { createServices } from './services.ts';
import { STARTED } from './start-guard.ts';
import { watchUpdates } from './update.ts';

/** Draws the page, in the words that were chosen. */
export function start(wording: Wording): void {
  const root = document.getElementById('app');
  if (root === null) throw new Error('no place to draw');
  document.querySelector('meta[name="description"]')?.setAttribute('content', PAGE.description);
  // The frame that index.html showed until now.
  root.textContent = '';
  render(() => <Shell services={createServices(wording)} update={watchUpdates()} />, root);
  dispatchEvent(new Event(STARTED));
  // Behind the start page: a page that is there is not fetched when a packer waits for it. Where it cannot be had now
  // the live page tries again, and says so.
  setTimeout(() => void fetchLive().catch(() => undefined), 0);
}
