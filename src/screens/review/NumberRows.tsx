import { For } from 'solid-js';
import { ARCHIVE as A } from '../../words/archive.ts';
import type { RunClock } from '../../words/format.ts';
import { RECORDS } from '../../words/records.ts';
import { useServices } from '../context.ts';
import { AlarmCounts } from '../runs/AlarmCounts.tsx';
import { type Asked, askedRows } from './asked.ts';

/** The numbers that a reviewer asks for; a dash where the record does not know. */
export function NumberRows(props: {
  told: Asked;
  clock: RunClock;
  /** The whole trace was read: what only that tells is known. */
  isWhole: boolean;
}) {
  const app = useServices();
  const n = () => props.told.numbers;
  const rows = () => askedRows(props.told, props.clock, app.units(), props.isWhole);
  return (
    <section class="panel asked" data-testid="review-numbers" aria-label={A.numbers}>
      <h2>{A.numbers}</h2>
      <dl class="asked-rows">
        <For each={rows()}>
          {([name, text]) => (
            <div>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          )}
        </For>
        <div>
          <dt>{RECORDS.alarms}</dt>
          <dd>
            <AlarmCounts counts={n().alarms} />
          </dd>
        </div>
      </dl>
    </section>
  );
}
