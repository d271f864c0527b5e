import type { EngineNews } from '../engine/messages.ts';
import { PRIORITIES, type Priority } from '../watch/codes.ts';
import type { AlarmView, WatchView } from '../watch/view.ts';
import { ranked, visibleAlarms } from '../widgets/alarm-order.ts';
import { createCountdownSound } from './countdown-sound.ts';
import type { AlarmTone, Sound } from './patterns.ts';

/** What the alarms' sound needs of whoever plays it. */
export interface Player {
  /** @param order what may be spoken after the tone, of the moment in which it is spoken; null: nothing */
  hold(sound: AlarmTone | null, order?: (() => string | null) | null): void;
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

/** The cure time is called once more after this, while the hold goes on, s of the run. */
const AGAIN_S = 600;

/** Is it on, be it acknowledged or not? */
const stands = (a: AlarmView): boolean => a.state === 'unacknowledged' || a.state === 'acknowledged';

/**
 * @param cueWanted whether the count of a fill may sound
 * @param orderOf one short order to be spoken; null: its words are not there
 */
export function createAlarmSound(
  player: Player,
  cueWanted: () => boolean,
  orderOf: (alarm: AlarmView, view: WatchView) => string | null,
): AlarmSound {
  const countdown = createCountdownSound();
  let waiting: ReadonlySet<Priority> = new Set();
  let onlyLost = false;
  let first: AlarmView | null = null;
  let view: WatchView | null = null;
  let troubled = false;
  let reachedUs: number | null = null;
  let silent = false;
  let faulty = false;

  const order = (): string | null => (first === null || view === null ? null : orderOf(first, view));

  function sound(): void {
    if (silent) player.hold('lost');
    else {
      const priority = PRIORITIES.find((p) => waiting.has(p) || (faulty && p === 'high')) ?? null;
      player.hold(priority === 'urgent' && onlyLost ? 'lost' : priority, order);
    }
  }

  /** A single note where the last alarm that presses has gone: by its own end, not by an acknowledgement. */
  function wellAgain(alarms: readonly AlarmView[]): void {
    const now = alarms.some((a) => stands(a) && a.priority !== 'low');
    if (troubled && !now && !silent && !faulty) player.once('well');
    troubled = now;
  }

  function reached(next: WatchView): void {
    if (reachedUs === null) return;
    if (next.stage !== 'hold' || next.tUs < reachedUs) reachedUs = null;
    else if (next.tUs - reachedUs >= AGAIN_S * 1e6) {
      reachedUs = null;
      player.once('reached');
    }
  }

  function count(next: WatchView): void {
    const { tUs, bar, stale, stage, guard } = next;
    const told = countdown.next({
      tUs,
      bar,
      stale,
      stage,
      closeInS: guard?.closeInS?.value ?? null,
      rateBarPerS: guard?.rateBarPerS ?? null,
    });
    // An alarm that waits is not talked over.
    if (told !== null && cueWanted() && waiting.size === 0) player.once(told);
  }

  return {
    take(news) {
      if (news.m === 'moment') {
        view = news.view;
        const visible = visibleAlarms(news.view.alarms);
        const unheard = visible.filter((a) => a.state === 'unacknowledged');
        waiting = new Set(unheard.map((a) => a.priority));
        const urgent = unheard.filter((a) => a.priority === 'urgent');
        onlyLost = urgent.length > 0 && urgent.every((a) => a.alarm === 'pressure-lost');
        first = ranked(unheard)[0] ?? null;
        sound();
        wellAgain(visible);
        reached(news.view);
        count(news.view);
      } else if (news.m === 'event') {
        // Help for a hand that does not look at the screen, as the count is.
        if (news.event.e === 'too-fast' && cueWanted()) player.once('cue');
        if (news.event.e === 'cure-met') {
          reachedUs = news.event.tUs;
          player.once('reached');
        }
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
