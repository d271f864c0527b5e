/// <reference types="vite-plugin-pwa/client" />
import { render } from 'solid-js/web';
import type { Wording } from '../job/wording.ts';
import { FarScreen } from '../screens/far/FarScreen.tsx';
import { parseRoute } from '../screens/route.ts';
import { PAGE } from '../words/page.ts';
import { UI } from '../words/ui.ts';
import { fetchLive } from './Page.tsx';
import { Shell } from './Shell.tsx';
import { createServices } from './services.ts';
import { STARTED } from './start-guard.ts';
import { watchUpdates } from './update.ts';
import { keepAwake } from './wake-lock.ts';

/** A second screen: without engine, stores or services, so that it disturbs nothing of the page that watches. */
function startFar(root: HTMLElement): void {
  document.title = UI.far.title;
  const dark = matchMedia('(prefers-color-scheme: dark)').matches;
  document.documentElement.dataset.theme = dark ? 'dark' : 'light';
  render(() => <FarScreen />, root);
  dispatchEvent(new Event(STARTED));
  const lock = keepAwake(
    () => true,
    () => undefined,
  );
  lock.check();
  // Its address was changed by hand: another page begins anew.
  addEventListener('hashchange', () => location.reload());
}

/** Draws the page, in the words that were chosen. */
export function start(wording: Wording): void {
  const root = document.getElementById('app');
  if (root === null) throw new Error('no place to draw');
  document.querySelector('meta[name="description"]')?.setAttribute('content', PAGE.description);
  // The frame that index.html showed until now.
  root.textContent = '';
  if (parseRoute(location.hash).page === 'far') {
    startFar(root);
    return;
  }
  render(() => <Shell services={createServices(wording)} update={watchUpdates()} />, root);
  dispatchEvent(new Event(STARTED));
  // Behind the start page: a page that is there is not fetched when a packer waits for it. Where it cannot be had now
  // the live page tries again, and says so.
  setTimeout(() => void fetchLive().catch(() => undefined), 0);
}
