/**
 * The debrief of a practice run: what truly happened, what the instrument and the ear could tell and when, what the hands did and
 * when, and whether the goal of the drill was met. Pure: of a record's log and events, so that whoever has the record makes the same.
 */
import { isDrill } from '../rig/drills.ts';
import { SENSED } from '../rig/truth-log.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Outcome } from './codes.ts';
import { couldHave } from './could.ts';
import { type Course, courseOf } from './course.ts';
import { judge } from './judge.ts';
import type { Debrief, DebriefInput, Done, Sign } from './shapes.ts';

/** A slider says each place that it is drawn through: of those only the last counts. */
const DRAWN_S = 1.5;

const shown = (hands: readonly Done[]): Done[] =>
  hands.filter((h, i) => {
    const next = hands[i + 1];
    return next === undefined || next.name !== h.name || next.s - h.s > DRAWN_S;
  });

/** What was so before does not count as a sign of it. */
const isFresh = (e: WatchEvent): e is Extract<WatchEvent, { e: 'alarm' }> =>
  e.e === 'alarm' && e.to === 'unacknowledged' && (e.why === 'condition' || e.why === 'escalated');

function signsOf(course: Course, input: DebriefInput, fromS: number): Sign[] {
  const seen = input.events.flatMap((e): Sign[] => {
    const s = (e.tUs - input.firstUs) / 1e6;
    return isFresh(e) && s >= fromS ? [{ s, by: 'instrument', alarm: e.alarm, priority: e.priority }] : [];
  });
  const heard = SENSED.flatMap((sensed): Sign[] => {
    const at = course.truth.find((t) => t.s >= fromS && t.sensed.includes(sensed));
    return at === undefined ? [] : [{ s: at.s, by: 'ear', sensed }];
  });
  return [...seen, ...heard].sort((a, b) => a.s - b.s);
}

/** null: the record holds nothing of the practice rig, so there is nothing to be told. */
export function debriefOf(input: DebriefInput): Debrief | null {
  const course = courseOf(input.said, input.firstUs);
  if (course.site === null) return null;
  const drill = isDrill(course.site) ? course.site : null;
  // The batch of a slow cup is slow from the start.
  const faultS = drill === 'drill-slow-batch' ? 0 : (course.faults[0]?.s ?? null);
  const lastS = (input.lastUs - input.firstUs) / 1e6;
  const signs = faultS === null ? [] : signsOf(course, input, faultS);
  const firstSign = signs[0] ?? null;
  const peakBar = course.truth.reduce((top, t) => Math.max(top, t.peakBar), 0);
  const told = { course, faultS, signS: firstSign?.s ?? faultS, lastS, peakBar, input };
  const judged = drill === null || faultS === null ? null : judge(drill, told);
  const outcome = ((): Outcome | null => {
    if (drill === null) return null;
    if (course.again || !input.ended) return 'broken-off';
    if (judged === null) return 'not-played';
    return judged.checks.every((c) => c.ok) ? 'met' : 'not-met';
  })();
  return {
    drill,
    site: course.site,
    seed: course.seed,
    trainee: course.trainee,
    outcome,
    checks: judged?.checks ?? [],
    lastS,
    faultS,
    faults: course.faults,
    hands: shown(course.hands),
    signs,
    firstSign,
    actionS: judged?.actionS ?? null,
    peakBar,
    ratedBar: input.limits?.ratedBar ?? null,
    packer: course.truth.map((t) => ({ s: t.s, bar: t.packerBar })),
    could:
      drill === null || firstSign === null || course.again ? null : couldHave(drill, course, firstSign.s),
  };
}
