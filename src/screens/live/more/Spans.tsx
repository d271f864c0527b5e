import { For } from 'solid-js';
import type { SpanChoice } from '../../../widgets/lanes/spans-shown.ts';
import { FACE } from '../../../words/face.ts';
import { LIVE } from '../../../words/live.ts';

const SPANS: readonly { readonly span: SpanChoice; readonly text: string }[] = [
  { span: 'stage', text: FACE.spanStage },
  { span: 60, text: LIVE.spanMinute },
  { span: 600, text: LIVE.spanTenMinutes },
  { span: 3600, text: LIVE.spanHour },
  { span: 'all', text: LIVE.spanAll },
];

/** How much of the run the trace shows. */
export function Spans(props: { span: SpanChoice; onSpan(span: SpanChoice): void }) {
  return (
    <fieldset class="spans stack">
      <legend>{LIVE.span}</legend>
      <For each={SPANS}>
        {(s) => (
          <button
            type="button"
            class="button wide"
            data-testid={`span-${s.span}`}
            aria-pressed={props.span === s.span}
            onClick={() => props.onSpan(s.span)}
          >
            {s.text}
          </button>
        )}
      </For>
    </fieldset>
  );
}
