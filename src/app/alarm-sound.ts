import type { EngineNews } from '../engine/messages.ts';
import { PRIORITIES, type Priority } from '../watch/codes.ts';
import { visibleAlarms } from '../widgets/alarm-order.ts';
import type { Sound } from './patterns.ts';

/** What the alarms' sound needs of whoever plays it. */
export interface Player {
  hold(sound: Priority | null): void;
  once(sound: Sound): void;
}

/**
 * The alarms' sound, straight from the engine's news. It reads nothing that is drawn and no signal of the page, so that
 * a picture that fails, or is not drawn since the page is hidden, silences nothing.
 */
export interface AlarmSound {
  take(news: EngineNews): void;
  /** The engine is not heard, or shows no more moments. */
  setSilent(silent: boolean): void;
  /** The page itself failed, and nobody has said yet that they saw it. */
  setFaulty(faulty: boolean): void;
}

/** @param cueWanted whether the cue of a fill may tick */
export function createAlarmSound(player: Player, cueWanted: () => boolean): AlarmSound {
  let waiting: ReadonlySet<Priority> = new Set();
  let silent = false;
  let faulty = false;

  function sound(): void {
    if (silent) player.hold('urgent');
    else player.hold(PRIORITIES.find((p) => waiting.has(p) || (faulty && p === 'high')) ?? null);
  }

  return {
    take(news) {
      if (news.m === 'moment') {
        const unheard = visibleAlarms(news.view.alarms).filter((a) => a.state === 'unacknowledged');
        waiting = new Set(unheard.map((a) => a.priority));
        sound();
      } else if (news.m === 'event') {
        // Both are help for a hand that does not look at the screen.
        if ((news.event.e === 'cue' || news.event.e === 'too-fast') && cueWanted()) player.once('cue');
        if (news.event.e === 'cure-met') player.once('met');
      }
    },
    setSilent(next) {
      silent = next;
      sound();
    },
    setFaulty(next) {
      faulty = next;
      sound();
    },
  };
}
