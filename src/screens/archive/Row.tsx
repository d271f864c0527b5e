import { Show } from 'solid-js';
import { type ArchiveEntry, refText, type Sketch } from '../../evidence/messages.ts';
import { dateTime, duration, NO_VALUE } from '../../words/format.ts';
import { JOBS } from '../../words/jobs.ts';
import { RECORDS as R } from '../../words/records.ts';
import { routeHash } from '../route.ts';
import { AlarmCounts } from '../runs/AlarmCounts.tsx';
import { RunPictures } from '../runs/RunPictures.tsx';

/** Where a record is looked into. */
export const hrefOf = (e: ArchiveEntry): string =>
  e.ref.kind === 'run' ? `#/run/${e.runId}` : routeHash({ page: 'record', id: refText(e.ref) });

/** Whether the data sheet's cure time was reached, and after how long; a dash where nobody can say. */
function cureText(sketch: Sketch | null | undefined): string {
  const cure = sketch?.account.cure;
  switch (cure?.state) {
    case 'met':
      return duration(cure.afterS ?? sketch?.numbers.cureMetS);
    case 'not-met':
    case 'not-started':
      return R.cureNot;
    default:
      return NO_VALUE;
  }
}

function StateTag(props: { entry: ArchiveEntry }) {
  const e = () => props.entry;
  const decided = () => e().status?.status ?? 'open';
  return (
    <Show
      when={!e().practice}
      fallback={
        <span class="tag practice-tag">
          <span>{JOBS.practiceTag}</span>
        </span>
      }
    >
      <Show when={e().state !== 'open'} fallback={<span class="tag">{R.recording}</span>}>
        <span class="tag" classList={{ solid: decided() === 'released' }}>
          {decided() === 'released' ? R.accepted : decided() === 'rejected' ? R.rejected : R.toReview}
        </span>
      </Show>
    </Show>
  );
}

/** One record: ladder of its peak, its course, and what a reviewer asks for first. */
export function Row(props: {
  entry: ArchiveEntry;
  sketch: Sketch | null | undefined;
  picked: boolean;
  onPick(on: boolean): void;
  /** Read aloud for the box that chooses it. */
  pickLabel: string;
}) {
  const e = () => props.entry;
  const id = () => refText(e().ref);
  const more = () =>
    [
      dateTime(e().openedUtcMs),
      e().site,
      e().packer,
      e().gaps > 0 ? JOBS.gaps(e().gaps) : '',
      e().status?.reason ?? '',
    ]
      .filter((t) => t !== '')
      .join(' · ');
  // Of a run that goes on the list has no count yet: it is not said to have had none.
  const alarmsSaid = () => {
    if (e().state === 'open') return NO_VALUE;
    return e().alarms === 0 ? R.noAlarm : JOBS.alarms(e().alarms);
  };
  const seal = () => {
    const { sealed, imported } = e();
    const how = sealed === null ? R.notSealed : R.sealed;
    const who = sealed !== null && sealed.signer === null ? R.unknownKey : '';
    return [how, who, imported === null ? '' : R.elsewhere, e().state === 'interrupted' ? R.interrupted : '']
      .filter((t) => t !== '')
      .join(', ');
  };
  return (
    <li class="record-row">
      <label class="tick record-pick">
        <input
          type="checkbox"
          checked={props.picked}
          data-testid={`pick-${id()}`}
          aria-label={props.pickLabel}
          onChange={(ev) => props.onPick(ev.currentTarget.checked)}
        />
      </label>
      <RunPictures sketch={props.sketch} />
      <div class="record-job">
        <a href={hrefOf(e())} data-testid={`record-${id()}`}>
          <strong>{e().title === '' ? e().runId : e().title}</strong>
        </a>
        <span class="muted small">{more()}</span>
      </div>
      <dl class="record-facts">
        <div>
          <dt>{R.inBand}</dt>
          <dd>{duration(props.sketch?.numbers.inBandS)}</dd>
        </div>
        <div>
          <dt>{R.cure}</dt>
          <dd>{cureText(props.sketch)}</dd>
        </div>
        <div>
          <dt>{R.alarms}</dt>
          <dd>
            <Show when={props.sketch} fallback={alarmsSaid()}>
              {(s) => <AlarmCounts counts={s().numbers.alarms} />}
            </Show>
          </dd>
        </div>
      </dl>
      <div class="record-state">
        <StateTag entry={e()} />
        <span class="small muted">{seal()}</span>
      </div>
    </li>
  );
}
