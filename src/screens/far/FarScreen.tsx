import { createSignal, Match, onCleanup, Switch } from 'solid-js';
import { pressure, pressureNumber } from '../../words/format.ts';
import { UI } from '../../words/ui.ts';
import { FAR_CHANNEL, FarEar, type FarShown, farSaid } from './far.ts';

/** A figure is looked over this often, ms: it must not outlive what it was told of. */
const LOOK_MS = 200;

/**
 * The pressure and nothing else, for a large display at the manhole: told by the page that watches, on the same machine. It has
 * no engine, asks for nothing and changes nothing.
 */
export function FarScreen(props: { channel?: () => BroadcastChannel }) {
  const ear = new FarEar();
  const [shown, setShown] = createSignal<FarShown>({ s: 'no-data' });
  const [practice, setPractice] = createSignal(false);
  const look = () => {
    setShown(ear.shown(performance.now(), Date.now()));
    setPractice(ear.practice);
  };
  const channel = props.channel?.() ?? new BroadcastChannel(FAR_CHANNEL);
  channel.onmessage = (event: MessageEvent) => {
    const said = farSaid(event.data);
    if (said === null) return;
    ear.hear(said, performance.now());
    look();
  };
  const timer = setInterval(look, LOOK_MS);
  // A page that was frozen in the background shows nothing old when it comes to the front.
  document.addEventListener('visibilitychange', look);
  onCleanup(() => {
    clearInterval(timer);
    document.removeEventListener('visibilitychange', look);
    channel.close();
  });
  const figure = () => {
    const now = shown();
    return now.s === 'figure' ? now : null;
  };
  const over = () => {
    const now = shown();
    return now.s === 'over' ? now : null;
  };
  return (
    <main class="far" data-testid="far" data-shown={shown().s} aria-label={UI.far.title}>
      <Switch
        fallback={
          <p class="far-word">
            {shown().s === 'two-pages'
              ? UI.far.twoPages
              : shown().s === 'no-reading'
                ? UI.noReading
                : UI.far.noData}
          </p>
        }
      >
        <Match when={figure()}>
          {(f) => (
            <p class="far-figure">
              <span class="far-number">{pressureNumber(f().bar, f().units)}</span>
              <span class="far-unit">{UI.far.units[f().units.pressure]}</span>
            </p>
          )}
        </Match>
        <Match when={over()}>
          {(o) => <p class="far-word">{UI.overRange(pressure(o().bar, o().units))}</p>}
        </Match>
      </Switch>
      <p class="far-note">{practice() ? UI.practiceBanner : UI.far.note}</p>
    </main>
  );
}
