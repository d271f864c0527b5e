import { createMemo, Index, Show } from 'solid-js';
import { duration } from '../words/format.ts';
import { stageName } from '../words/terms.ts';
import { UI } from '../words/ui.ts';
import { type PlacedSpan, placeSpans, type StageSpan } from './lanes/ribbon.ts';

const titleOf = ({ stage, attempt, fromS, toS }: StageSpan): string =>
  [stageName(stage, attempt), ...(toS === null ? [] : [duration(toS - fromS)])].join(', ');

/** The stages over the trace, on its time axis: the current one black, running on over the ladder with its clock. */
export function StageRibbon(props: {
  spans: readonly StageSpan[];
  fromS: number;
  toS: number;
  /** Where the plot begins and ends inside this element, px. */
  left: number;
  plotRight: number;
  /** Where the ribbon ends, px. */
  right: number;
  height: number;
  small: boolean;
  /** Running time of the current stage. */
  clock?: string;
}) {
  const same = (a: readonly PlacedSpan[], b: readonly PlacedSpan[]) =>
    a.length === b.length &&
    a.every((s, i) => {
      const o = b[i]!;
      return s.x === o.x && s.w === o.w && s.stage === o.stage && s.attempt === o.attempt && s.toS === o.toS;
    });
  // Whole px: a window that moves on changes nothing until a stage's edge does.
  const placed = createMemo<readonly PlacedSpan[]>(
    () => placeSpans(props.spans, props.fromS, props.toS, props.left, props.plotRight, props.right),
    [],
    { equals: same },
  );
  return (
    <ol
      class="ribbon"
      classList={{ small: props.small }}
      aria-label={UI.stages}
      data-testid="stage-ribbon"
      style={{ height: `${props.height}px` }}
    >
      {/* By place, not by span: a hand that moves the view gives every span new numbers, not a new element. */}
      <Index each={placed()}>
        {(s) => (
          <li
            class="ribbon-span"
            classList={{ now: s().isNow }}
            style={{ left: `${s().x}px`, width: `${s().w}px` }}
            title={titleOf(s())}
          >
            <span class="ribbon-name">{stageName(s().stage, s().attempt)}</span>
            <Show when={s().isNow ? props.clock : undefined}>
              {(clock) => <span class="ribbon-clock">{clock()}</span>}
            </Show>
          </li>
        )}
      </Index>
    </ol>
  );
}
