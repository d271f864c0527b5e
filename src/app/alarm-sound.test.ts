import { describe, expect, it } from 'vitest';
import type { EngineNews } from '../engine/messages.ts';
import type { AlarmCode, AlarmState, Priority } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';
import { createAlarmSound } from './alarm-sound.ts';
import type { AlarmTone, Sound } from './patterns.ts';

type Given = readonly [alarm: AlarmCode, priority: Priority, state?: AlarmState];

function bench() {
  const once: Sound[] = [];
  let held: AlarmTone | null = null;
  let order: (() => string | null) | null = null;
  const sound = createAlarmSound(
    {
      hold(tone, say = null) {
        held = tone;
        order = say;
      },
      once: (tone) => once.push(tone),
    },
    () => true,
    (alarm, view) => `${alarm.alarm} in ${view.stage}`,
  );
  return {
    sound,
    once,
    held: () => held,
    said: () => order?.() ?? null,
    moment(alarms: readonly Given[], part: object = {}) {
      sound.take({
        m: 'moment',
        view: {
          tUs: 1e6,
          stage: 'hold',
          stageSinceUs: 0,
          guard: { closeInS: null },
          alarms: alarms.map(([alarm, priority, state = 'unacknowledged']) => ({
            alarm,
            priority,
            state,
            occurrence: 1,
            sinceUs: 0,
            shelvable: false,
            values: {},
          })),
          ...part,
        },
      } as unknown as EngineNews);
    },
    event: (event: WatchEvent) => sound.take({ m: 'event', event }),
  };
}

describe('what an alarm sounds like', () => {
  it('the most urgent that waits is held, and its order may be spoken', () => {
    const b = bench();
    b.moment([
      ['pot-life', 'low'],
      ['lift', 'high'],
    ]);
    expect([b.held(), b.said()]).toEqual(['high', 'lift in hold']);
    b.moment([
      ['lift', 'high'],
      ['over-rated', 'urgent'],
    ]);
    expect([b.held(), b.said()]).toEqual(['urgent', 'over-rated in hold']);
    b.moment([['over-rated', 'urgent', 'acknowledged']]);
    expect(b.held()).toBeNull();
  });

  it('a lost reading falls, but not beside an alarm that is over a limit', () => {
    const b = bench();
    b.moment([['pressure-lost', 'urgent']]);
    expect(b.held()).toBe('lost');
    b.moment([
      ['pressure-lost', 'urgent'],
      ['device-trip', 'urgent'],
    ]);
    expect(b.held()).toBe('urgent');
  });

  it('an engine that is not heard is a lost reading', () => {
    const b = bench();
    b.sound.setSilent(true);
    expect([b.held(), b.said()]).toEqual(['lost', null]);
  });
});

describe('calls that are no alarm', () => {
  it('one short note when what pressed is over by itself, none at an acknowledgement or for a low one', () => {
    const b = bench();
    b.moment([['ceiling', 'urgent']]);
    b.moment([['ceiling', 'urgent', 'acknowledged']]);
    expect(b.once).toEqual([]);
    b.moment([]);
    expect(b.once).toEqual(['well']);
    b.moment([['cold', 'low']]);
    b.moment([]);
    b.moment([['pressure-lost', 'urgent']]);
    b.moment([['pressure-lost', 'urgent', 'returned']]);
    expect(b.once).toEqual(['well', 'well']);
  });

  it('none while another one presses on', () => {
    const b = bench();
    b.moment([
      ['pressure-lost', 'urgent'],
      ['lift', 'high'],
    ]);
    b.moment([['lift', 'high']]);
    expect(b.once).toEqual([]);
  });

  it('the cure time is called twice, ten minutes of the run apart, and only while the hold goes on', () => {
    const met = { tUs: 60e6, e: 'cure-met', progressLow: 1, equivalentAgeMin: 60 } as const;
    const b = bench();
    b.event(met);
    for (const minutes of [1, 5, 10.9]) b.moment([], { tUs: minutes * 60e6 });
    expect(b.once).toEqual(['reached']);
    for (const minutes of [11, 12, 30]) b.moment([], { tUs: minutes * 60e6 });
    expect(b.once).toEqual(['reached', 'reached']);

    const letDown = bench();
    letDown.event(met);
    letDown.moment([], { tUs: 5 * 60e6, stage: 'let-down' });
    letDown.moment([], { tUs: 12 * 60e6, stage: 'hold' });
    expect(letDown.once).toEqual(['reached']);
  });

  it('the count of a fill sounds, and keeps quiet while an alarm waits', () => {
    const b = bench();
    const count = (closeInS: number, alarms: readonly Given[] = []) =>
      b.moment(alarms, { stage: 'inflate', guard: { closeInS: { value: closeInS, low: 0, high: 9 } } });
    count(8.2);
    count(5.4, [['rising', 'urgent']]);
    count(4.4);
    count(0.2);
    expect(b.once).toEqual(['cue', 'well', 'tick', 'now']);
  });
});
