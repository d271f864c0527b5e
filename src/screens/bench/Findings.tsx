import { For } from 'solid-js';
import { type BenchPoint, verdictOf } from '../../job/bench-codes.ts';
import type { BenchFinding } from '../../job/bench-document.ts';
import { BENCH, foundText, POINT, VERDICT } from '../../words/bench.ts';
import { useServices } from '../context.ts';

/** A finding as it is told, here or in a record. */
export type Shown = Omit<BenchFinding, 'reason'> & { readonly reason: string };

/** A verdict a point, each with its number and reason. Verdicts differ by word and frame; colour belongs to alarms. */
export function Findings(props: { findings: readonly Shown[] }) {
  const app = useServices();
  const isMany = (point: BenchPoint) => props.findings.filter((f) => f.point === point).length > 1;
  return (
    <ul class="bench-points" data-testid="bench-points">
      <For each={props.findings}>
        {(f) => {
          const verdict = () => verdictOf(f.point, f.reason) ?? 'not-tried';
          return (
            <li data-testid={`point-${f.point}`}>
              <strong>
                {POINT[f.point]}
                {f.channel !== null && isMany(f.point) ? `, ${BENCH.channel(f.channel)}` : ''}
              </strong>
              <span class={`bench-verdict bench-verdict-${verdict()}`}>{VERDICT[verdict()]}</span>
              <span class="bench-why">{foundText(f.point, f.reason, f, app.units())}</span>
            </li>
          );
        }}
      </For>
    </ul>
  );
}
