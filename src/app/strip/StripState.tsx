import { createMemo, For, Index, Show } from 'solid-js';
import { lampOf } from '../../screens/live/alarm-stage.ts';
import { coarse } from '../../screens/live/time-slot.ts';
import { packersLeft } from '../../screens/packers-left.ts';
import { leftText } from '../../screens/runs/left-text.ts';
import type { AlarmView } from '../../watch/view.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { ranked } from '../../widgets/alarm-order.ts';
import { createCalm } from '../../widgets/calm.ts';
import { Glance } from '../../widgets/Glance.tsx';
import { LyingLadder } from '../../widgets/lanes/Micro.tsx';
import { viewTrust } from '../../widgets/trust.ts';
import { alarmTitle } from '../../words/alarm-titles.ts';
import { NO_WARNING } from '../../words/alarms.ts';
import { FACE, LAMP } from '../../words/face.ts';
import { clockTime } from '../../words/format.ts';
import { LINK_STATE } from '../../words/link.ts';
import { NO_SOUND } from '../../words/sound.ts';
import { STAGE, STANDING } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import type { AppServices } from '../services.ts';

/**
 * What is to be known on every page: on the live page the marks that stand, the record and the alarms; on the others the
 * pressure with its state, the stage and the time that is left as well.
 */
export function StripState(props: {
  app: AppServices;
  onLive: boolean;
  small: boolean;
  /** Several standing marks are counted: they have no room beside each other. */
  counted: boolean;
  /** No room for words that are found elsewhere too. */
  brief: boolean;
}) {
  const { live } = props.app;
  const view = createCalm(live.view, (v) =>
    [v?.stage, ...(v?.alarms ?? []).map((a) => `${a.alarm} ${a.occurrence} ${a.state}`)].join('|'),
  );
  const connected = () => live.link() !== null && live.link()?.state !== 'idle';
  const standing = createMemo(() => (live.view()?.standing ?? []).filter((s) => s !== 'practice'), [], {
    equals: (a, b) => a.join() === b.join(),
  });
  // The engine's list stays the same one while nothing of it changes.
  const alarms = createMemo<readonly AlarmView[]>(() => view()?.alarms ?? []);
  const lamp = createMemo(() => lampOf(alarms()));
  const rest = createMemo(() => {
    const first = lamp()?.first;
    return ranked(alarms()).filter((a) => a.alarm !== first?.alarm);
  });
  const shelved = createMemo(() =>
    alarms()
      .filter((a) => a.state === 'shelved')
      .sort((a, b) => (a.shelvedUntilUs ?? 0) - (b.shelvedUntilUs ?? 0)),
  );
  const shelfLeft = () => {
    const until = shelved()[0]?.shelvedUntilUs ?? null;
    const tUs = view()?.tUs ?? 0;
    // Whole minutes: a count of seconds would only draw the eye.
    return until === null ? '' : coarse(60 * Math.max(1, Math.ceil((until - tUs) / 60e6)));
  };
  // Another packer than the one of this run; without a run the pages say it at length.
  const left = createMemo(() => (live.run() === null ? [] : packersLeft(props.app)));
  /** In the hand what is not connected says so once; that no alarm can come is more than any mark. */
  const idle = createMemo(() => !connected() && live.run() === null);
  const block = () => (live.silent() || live.run() !== null || connected() ? props.app.soundBlocked() : null);
  /** One has room by itself, but not under the sound that is off and beside an alarm. */
  const areCounted = () =>
    props.counted &&
    (standing().length > 1 || (standing().length > 0 && block() !== null && lamp() !== null));
  return (
    <div class="strip-state" classList={{ small: props.small, idle: idle() }}>
      <Show when={!props.onLive && connected() && !live.silent()}>
        <GlanceState app={props.app} small={props.small} brief={props.brief} view={view()} />
      </Show>
      <Show when={block() !== null || left().length > 0 || (props.onLive && standing().length > 0)}>
        <ul
          class="strip-marks"
          classList={{ 'visually-hidden': props.small && idle() && block() === null }}
          aria-label={UI.standingMarks}
        >
          <Show when={block()}>
            {(why) => (
              <li class="strip-mark sound-off" data-testid="sound-blocked">
                <span aria-hidden="true">{FACE.soundOff}</span>
                <span class="visually-hidden" role="status">
                  {NO_SOUND[why()]}
                </span>
              </li>
            )}
          </Show>
          <Show when={left()[0]}>
            {(packer) => (
              <li class="strip-mark" data-testid="left-full" title={leftText(packer(), props.app.units())}>
                <span aria-hidden="true">{FACE.mayBeFull}</span>
                <span class="visually-hidden">{leftText(packer(), props.app.units())}</span>
              </li>
            )}
          </Show>
          <Show when={props.onLive}>
            <For each={standing()}>
              {(code) => (
                <li
                  class="strip-mark"
                  classList={{ 'visually-hidden': areCounted() }}
                  data-testid={code === 'no-limit' ? 'no-limit' : `standing-${code}`}
                  title={STANDING[code].means}
                >
                  {STANDING[code].mark}
                </li>
              )}
            </For>
            <Show when={areCounted()}>
              <li class="strip-mark" aria-hidden="true">
                {FACE.marks(standing().length)}
              </li>
            </Show>
          </Show>
        </ul>
      </Show>
      <p class="strip-record" data-testid="shell-link">
        <Show
          when={live.run() !== null}
          fallback={
            <span classList={{ 'visually-hidden': props.small && idle() }}>
              {LINK_STATE[live.link()?.state ?? 'idle']}
            </span>
          }
        >
          <span>{props.small ? FACE.rec : FACE.recording}</span>
        </Show>{' '}
        <strong>{clockTime(props.app.nowMs())}</strong>
      </p>
      <div class="strip-lamp" data-testid="lamp" data-priority={lamp()?.first.priority ?? 'none'}>
        <Show
          when={lamp()}
          fallback={
            <p class="strip-calm" data-testid="no-alarms">
              <span>{live.silent() || !connected() ? UI.notLive : UI.noAlarms}</span>{' '}
              <span>{NO_WARNING}</span>
            </p>
          }
        >
          {(l) => (
            <>
              <AlarmShape priority={l().first.priority} size={props.small ? 18 : 22} />
              <strong>{FACE.lamp(1, LAMP[l().first.priority], l().more)}</strong>
              <Index each={rest().slice(0, props.small ? 2 : 3)}>
                {(a) => <AlarmShape priority={a().priority} size={props.small ? 14 : 18} />}
              </Index>
            </>
          )}
        </Show>
        <Show when={shelved()[0]}>
          {(first) => (
            <p class="strip-shelf" data-testid="shelved">
              {shelved().length === 1 && props.brief
                ? FACE.shelvedShort(shelfLeft())
                : shelved().length === 1
                  ? FACE.shelved(alarmTitle(first()), shelfLeft())
                  : FACE.shelvedMany(shelved().length, shelfLeft())}
            </p>
          )}
        </Show>
      </div>
    </div>
  );
}

/** The pressure with its state, in passing: a lying ladder, the number, the stage, the time that is left. */
function GlanceState(props: {
  app: AppServices;
  small: boolean;
  /** The number alone: beside it nothing has room. */
  brief: boolean;
  view: ReturnType<AppServices['live']['view']>;
}) {
  const { live, units } = props.app;
  const trust = () => viewTrust(props.view, live.silent());
  const known = () => trust() === 'good' || trust() === 'stale' || trust() === 'over';
  const left = () => {
    const v = props.view;
    if (v === null) return null;
    if (v.stage === 'hold' && v.cure !== null) {
      if (v.cure.metAtS !== null || v.cure.low >= 1) return FACE.cureMet;
      return v.cure.metInS === null ? null : FACE.cureLeft(coarse(v.cure.metInS.high));
    }
    return v.potLifeLeftS === null ? null : FACE.mixedLeft(coarse(v.potLifeLeftS));
  };
  return (
    <a class="strip-glance" href="#/live" aria-label={UI.live}>
      <LyingLadder
        ladder={{
          bar: props.view?.overBar ?? props.view?.bar ?? null,
          state: known() ? 'known' : trust() === 'lost' ? 'lost' : 'none',
          limits: props.view?.limits ?? null,
        }}
        width={props.brief ? 84 : 138}
      />
      <Glance view={props.view} silent={live.silent()} units={units()} />
      <Show when={!props.brief && live.run() !== null && props.view}>
        {(v) => <span class="stage-plate">{STAGE[v().stage]}</span>}
      </Show>
      <Show when={!props.brief && left()}>{(text) => <span class="glance-left">{text()}</span>}</Show>
    </a>
  );
}
