import { registerSW } from 'virtual:pwa-register';
import { type Accessor, createSignal } from 'solid-js';

export interface Update {
  /** A new version waits. It never takes over by itself: a run may be under way. */
  readonly ready: Accessor<boolean>;
  apply(): void;
}

/** Registers the service worker that keeps the app usable without a network. */
export function watchUpdates(): Update {
  const [ready, setReady] = createSignal(false);
  let update: ((reload: boolean) => Promise<void>) | null = null;
  // Behind the start page: filling the cache must not delay what is looked at.
  setTimeout(() => {
    update = registerSW({ onNeedRefresh: () => setReady(true) });
  }, 0);
  return { ready, apply: () => void update?.(true) };
}
