import { LadderPicture } from '../../widgets/lanes/LadderPicture.tsx';
import { WELCOME } from '../../words/welcome.ts';
import { useServices } from '../context.ts';

/** An invented fill in its last third, bar. */
const EXAMPLE = {
  limits: { ratedBar: 1.8, ceilingBar: 1.74, workingBar: 1.45, floorBar: 0.77, seatBar: 0.4 },
  bar: 1.12,
  ghost: { value: 1.56, low: 1.53, high: 1.59, by: 'settles', isUrgent: false },
} as const;

/** The ladder to learn from. Its words come with the live page's, so it is fetched behind the start. */
export function GuidePicture() {
  const app = useServices();
  return (
    <LadderPicture
      {...EXAMPLE}
      aim="working"
      width={300}
      height={540}
      units={app.units()}
      label={WELCOME.guidePicture}
    />
  );
}
