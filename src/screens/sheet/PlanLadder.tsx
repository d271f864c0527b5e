import type { Limits } from '../../job/setup.ts';
import { LadderPicture } from '../../widgets/lanes/LadderPicture.tsx';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';

const SIZE = { width: 340, height: 420 } as const;

/** The plan's pressures on the ladder that the live page will show, with what warmth will lift them to. */
export function PlanLadder(props: { limits: Limits; liftBar: number }) {
  const app = useServices();
  const ghost = () => {
    const value = props.limits.workingBar + props.liftBar;
    if (!(props.liftBar > 0)) return null;
    return {
      value,
      low: value,
      high: value,
      by: 'warmth',
      isUrgent: value > props.limits.ceilingBar,
    } as const;
  };
  return (
    <div class="plan-ladder">
      <LadderPicture
        limits={props.limits}
        bar={props.limits.workingBar}
        ghost={ghost()}
        aim="working"
        {...SIZE}
        units={app.units()}
        label={SHEET.planPicture}
      />
    </div>
  );
}
