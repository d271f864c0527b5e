import { For, Show } from 'solid-js';
import type { RunDetail } from '../../engine/messages.ts';
import type { StageSpan } from '../../widgets/lanes/ribbon.ts';
import { limitsText } from '../../words/events.ts';
import { count, duration } from '../../words/format.ts';
import { LIVE } from '../../words/live.ts';
import { REVIEW } from '../../words/review.ts';
import { SOURCE } from '../../words/sources.ts';
import { stageName } from '../../words/terms.ts';
import { useServices } from '../context.ts';

/** What the run was; what a reviewer asks for stands with the seal. */
export function Numbers(props: { detail: RunDetail; spans: readonly StageSpan[] }) {
  const app = useServices();
  const s = () => props.detail.summary;
  const setup = () => props.detail.setups[props.detail.setups.length - 1] ?? null;
  return (
    <section class="panel stack" aria-label={REVIEW.numbers}>
      <h2>{REVIEW.numbers}</h2>
      <dl class="facts">
        <Row name={REVIEW.duration}>{duration(s().seconds)}</Row>
        <Row name={REVIEW.readings}>{count(s().readings)}</Row>
        <Row name={REVIEW.device}>
          {props.detail.hello === null
            ? LIVE.notRecording
            : props.detail.map === null
              ? `${props.detail.hello.deviceId} (${props.detail.hello.firmware})`
              : props.detail.hello.deviceId}
        </Row>
        <Show when={props.detail.map}>
          {(map) => <Row name={REVIEW.source}>{SOURCE[map().is].title}</Row>}
        </Show>
      </dl>
      <p class="small muted">{limitsText(setup(), app.units())}</p>
      <h3>{REVIEW.stages}</h3>
      <table class="table">
        <tbody>
          <For each={props.spans}>
            {(span) => (
              <tr>
                <th scope="row">{stageName(span.stage, span.attempt)}</th>
                <td>{duration((span.toS ?? span.fromS) - span.fromS)}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
    </section>
  );
}

function Row(props: { name: string; children: string; wide?: boolean }) {
  return (
    <div classList={{ 'fact-wide': props.wide ?? false }}>
      <dt>{props.name}</dt>
      <dd>{props.children}</dd>
    </div>
  );
}
