import { For, Show } from 'solid-js';
import { Key } from '../../widgets/Key.tsx';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';
import { FACE } from '../../words/face.ts';
import { LIVE } from '../../words/live.ts';
import { ZERO } from '../../words/zero.ts';
import { useServices } from '../context.ts';
import { Help } from '../help/Help.tsx';
import { SoundTest } from './SoundTest.tsx';
import type { Start } from './start.ts';
import { SecondAtZero } from './ZeroSecond.tsx';

/** Above this nobody is told to open a coupling, bar. */
const UNDER_PRESSURE_BAR = 0.1;

/** The third step: the zero, with the coupling seen open. */
export function ZeroStep(props: { start: Start }) {
  const app = useServices();
  const refused = () => {
    const last = app.live.events().findLast((e) => e.e === 'zero');
    return last?.e === 'zero' && !last.taken ? last : null;
  };
  const pressed = () => (app.live.view()?.bar ?? 0) > UNDER_PRESSURE_BAR;
  return (
    <div class="stack">
      <div class="with-help">
        <h2>{LIVE.zeroTitle}</h2>
        <Help about="zero" of={LIVE.zeroTitle} />
      </div>
      <Show
        when={pressed()}
        fallback={
          <>
            <p>{LIVE.zeroText}</p>
            <SecondAtZero />
            <button
              type="button"
              class="button primary wide"
              data-testid="zero"
              disabled={props.start.busy()}
              onClick={() => props.start.zero()}
            >
              {LIVE.zero}
            </button>
          </>
        }
      >
        <p class="note strong" role="status" data-testid="zero-under-pressure">
          {LIVE.zeroPressure}
        </p>
      </Show>
      <Show when={refused()}>
        {(e) => (
          <p class="note strong" role="status" data-testid="zero-refused">
            {ZERO[e().reason]}
          </p>
        )}
      </Show>
      <Key
        class="wide"
        means={`skip ${pressed()}`}
        hold
        data-testid="skip-zero"
        disabled={props.start.busy()}
        onPress={() => props.start.skipZero()}
      >
        <span>{LIVE.zeroSkip}</span>
        <small>{FACE.hold}</small>
      </Key>
      <SoundTest />
      <ul class="cautions small">
        <For each={CAUTIONS_AT.prepare}>{(c) => <li>{CAUTION[c]}</li>}</For>
      </ul>
    </div>
  );
}
