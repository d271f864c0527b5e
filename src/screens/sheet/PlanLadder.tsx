import { For } from 'solid-js';
import type { Limits } from '../../job/setup.ts';
import { MicroLadderPicture } from '../../widgets/lanes/Micro.tsx';
import { pressure } from '../../words/format.ts';
import { SHEET } from '../../words/sheet.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';

/** The plan's pressures on a ladder, with their names and values beside it. */
export function PlanLadder(props: { limits: Limits; liftBar: number }) {
  const app = useServices();
  const rows = (): readonly (readonly [string, number | null])[] => [
    [UI.rated, props.limits.ratedBar],
    [UI.ceiling, props.limits.ceilingBar],
    [SHEET.lift, props.limits.workingBar + props.liftBar],
    [UI.working, props.limits.workingBar],
    [UI.floor, props.limits.floorBar],
    [SHEET.seat, props.limits.seatBar],
  ];
  return (
    <div class="plan-ladder">
      <MicroLadderPicture
        ladder={{
          bar: props.limits.workingBar,
          state: 'known',
          limits: props.limits,
          settleBar: props.limits.workingBar + props.liftBar,
        }}
        width={84}
        height={340}
        label={SHEET.planPicture}
      />
      <dl>
        <For each={rows()}>
          {([name, bar]) => (
            <div>
              <dt>{name}</dt>
              <dd>{bar === null ? UI.notKnown : pressure(bar, app.units())}</dd>
            </div>
          )}
        </For>
      </dl>
    </div>
  );
}
