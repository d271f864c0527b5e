import type { FromEngine } from '../engine/messages.ts';
import { FAR_CHANNEL, FAR_EVERY_MS, type FarSaid } from '../screens/far/far.ts';
import { isUnread, readsLow } from '../screens/live/next-stage.ts';
import { viewTrust } from '../widgets/trust.ts';
import type { DisplayUnits } from '../words/format.ts';

/** Tells a second screen the pressure with the engine's own moments: where these stop, nothing is told. */
export function createFarSender(
  units: () => DisplayUnits,
  clock: { utcMs(): number } = { utcMs: () => Date.now() },
  open: () => Pick<BroadcastChannel, 'postMessage' | 'close'> | null = () =>
    'BroadcastChannel' in globalThis ? new BroadcastChannel(FAR_CHANNEL) : null,
): { take(news: FromEngine): void; close(): void } {
  const channel = open();
  const from = crypto.randomUUID();
  let lastMs = Number.NEGATIVE_INFINITY;
  return {
    take(news) {
      if (channel === null || news.m !== 'moment') return;
      // A page that watches nothing says nothing: another one may.
      if (news.run === null && (news.link === null || news.link.state === 'idle')) return;
      const utcMs = clock.utcMs();
      if (Math.abs(utcMs - lastMs) < FAR_EVERY_MS) return;
      lastMs = utcMs;
      const { view } = news;
      const said: FarSaid = {
        v: 1,
        from,
        utcMs,
        // Whoever stands there sees no alarm beside the figure: one that stands still, or is known to be too low, is no figure.
        trust: isUnread(view) || readsLow(view) ? 'lost' : viewTrust(view, false),
        bar: view.bar,
        overBar: view.overBar,
        units: { ...units() },
        practice: news.link?.kind === 'rig' || news.run?.practice === true,
      };
      channel.postMessage(said);
    },
    close: () => channel?.close(),
  };
}
