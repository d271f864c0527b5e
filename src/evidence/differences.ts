/** What today's engine says otherwise of an old record. */

import { judgeAgain } from '../engine/judge-again.ts';
import { without } from '../record/judgement.ts';
import { ENGINE } from '../watch/codes.ts';
import type { JudgedView } from './messages.ts';
import type { OpenRecord } from './open.ts';

const MOST_SHOWN = 500;

export function differences({ pages, manifest }: OpenRecord): JudgedView {
  const { head, recorded, again } = judgeAgain(pages);
  const then = manifest?.events ?? recorded;
  return {
    engineThen: manifest?.engine ?? head?.engine ?? ENGINE,
    engineNow: ENGINE,
    against: manifest === null ? 'recorded' : 'sealed',
    events: then.length,
    gone: without(then, again).slice(0, MOST_SHOWN),
    fresh: without(again, then).slice(0, MOST_SHOWN),
  };
}
