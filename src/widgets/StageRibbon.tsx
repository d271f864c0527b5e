import { createMemo, Index } from 'solid-js';
import type { Stage } from '../watch/codes.ts';
import { duration } from '../words/format.ts';
import { stageName } from '../words/terms.ts';
import { UI } from '../words/ui.ts';

/** A stage's stretch on the trace's time axis; toS null: still going on. */
export interface StageSpan {
  readonly stage: Stage;
  readonly attempt: number;
  readonly fromS: number;
  readonly toS: number | null;
}

/** Spans as shares (0…1) of a window, those outside dropped. */
export function placeSpans(
  spans: readonly StageSpan[],
  fromS: number,
  toS: number,
): readonly (StageSpan & { readonly left: number; readonly width: number })[] {
  const span = toS - fromS;
  if (!(span > 0)) return [];
  return spans.flatMap((s) => {
    const a = Math.max(fromS, s.fromS);
    const b = Math.min(toS, s.toS ?? toS);
    return b > a ? [{ ...s, left: (a - fromS) / span, width: (b - a) / span }] : [];
  });
}

const titleOf = ({ stage, attempt, fromS, toS }: StageSpan): string =>
  [stageName(stage, attempt), ...(toS === null ? [] : [duration(toS - fromS)])].join(', ');

/** The stages along the top of the trace, on the same time axis. */
export function StageRibbon(props: {
  spans: readonly StageSpan[];
  fromS: number;
  toS: number;
  /** Where the plot begins and ends inside this element, px. */
  left: number;
  right: number;
}) {
  // By place, not by span: a hand that moves the view gives every span new numbers, not a new element.
  const placed = createMemo(() => placeSpans(props.spans, props.fromS, props.toS));
  return (
    <ol
      class="ribbon"
      aria-label={UI.stages}
      data-testid="stage-ribbon"
      style={{ 'margin-left': `${props.left}px`, 'margin-right': `${props.right}px` }}
    >
      <Index each={placed()}>
        {(s) => (
          <li
            class="ribbon-span"
            classList={{ now: s().toS === null, [s().stage]: true }}
            style={{ left: `${s().left * 100}%`, width: `${s().width * 100}%` }}
            title={titleOf(s())}
          >
            <span>{stageName(s().stage, s().attempt)}</span>
          </li>
        )}
      </Index>
    </ol>
  );
}
