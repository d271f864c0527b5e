import { cleanup, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import { liveBench } from '../../screens/live/testing/bench.ts';
import { alarm } from '../../screens/live/testing/scene.ts';
import type { WatchView } from '../../watch/view.ts';
import { NO_WARNING } from '../../words/alarms.ts';
import { FACE } from '../../words/face.ts';
import { NO_SOUND } from '../../words/sound.ts';
import { STANDING } from '../../words/terms.ts';
import { UI } from '../../words/ui.ts';
import type { AppServices } from '../services.ts';
import { StripState } from './StripState.tsx';

afterEach(cleanup);

function shown(
  first: Partial<WatchView>,
  { onLive = true, small = false, blocked = null as 'press' | 'not-heard' | null } = {},
) {
  const bench = liveBench(first);
  const app = { ...bench.services, soundBlocked: () => blocked } as unknown as AppServices;
  render(() => <StripState app={app} onLive={onLive} small={small} counted={small} brief={small} />);
  return bench;
}
const lamp = () => screen.getByTestId('lamp');
const plain = (el: Element | null) => el?.textContent?.replaceAll('\u00a0', ' ').trim();

describe('the strip', () => {
  it.each([false, true])(
    'without an alarm it says so, and that this does not mean safe (small: %s)',
    (small) => {
      shown({ stage: 'hold', bar: 1.5 }, { small });
      expect(lamp().dataset.priority).toBe('none');
      expect(lamp().textContent).toContain(UI.noAlarms);
      expect(lamp().textContent).toContain(NO_WARNING);
    },
  );

  it('in a run marks on every page what an earlier one left full, and never the packer of this one', () => {
    for (const onLive of [true, false]) {
      const { services } = liveBench({ stage: 'hold', bar: 1.5 });
      const packer = { title: '', bar: 1.52, utcMs: Date.now(), emptied: null };
      const own = { ...packer, runId: services.live.run()!.runId };
      const [left, setLeft] = createSignal([own]);
      const app = { ...services, live: { ...services.live, left } } as unknown as AppServices;
      render(() => <StripState app={app} onLive={onLive} small={false} counted={false} brief={false} />);
      expect(screen.queryByTestId('left-full')).toBeNull();
      setLeft([own, { ...packer, runId: 'another' }]);
      expect(plain(screen.getByTestId('left-full'))).toContain('last seen at 1.52 bar');
      cleanup();
    }
  });

  it('an engine that is silent is not calm', () => {
    const { setSilent } = shown({ stage: 'hold', bar: 1.5 });
    setSilent(true);
    expect(lamp().textContent).toContain(UI.notLive);
    expect(lamp().textContent).not.toContain(UI.noAlarms);
  });

  it('the highest alarm by shape and word, how many more there are, and their shapes', () => {
    const { show } = shown({ stage: 'hold', bar: 1.5 });
    show({
      alarms: [
        alarm({ alarm: 'stuck', priority: 'low' }),
        alarm({ alarm: 'leaking', priority: 'high' }),
        alarm({ alarm: 'ceiling', priority: 'urgent' }),
      ],
    });
    expect(lamp().dataset.priority).toBe('urgent');
    expect(plain(lamp().querySelector('strong'))).toBe('1 urgent, 2 more');
    expect(lamp().querySelectorAll('svg')).toHaveLength(3);
  });

  it('shapes of alarms whose numbers change are not made anew', () => {
    const list = (bar: number) => [
      alarm({ alarm: 'ceiling', values: { bar } }),
      alarm({ alarm: 'leaking', priority: 'high', values: { mbarPerMin: bar } }),
    ];
    const { show } = shown({ stage: 'hold', bar: 1.5, alarms: list(1) });
    const before = [...lamp().querySelectorAll('svg')];
    show({ alarms: list(2), attempt: 2, stage: 'let-down' });
    expect([...lamp().querySelectorAll('svg')]).toEqual(before);
  });

  it('what is put aside is named with the shelf’s time, and does not count as calm', () => {
    shown({
      stage: 'hold',
      bar: 1.5,
      alarms: [
        alarm({ alarm: 'leaking', priority: 'high', state: 'shelved', shelvedUntilUs: 100e6 + 23.2 * 60e6 }),
      ],
    });
    expect(plain(screen.getByTestId('shelved'))).toMatch(/^Put aside: .+, 24 min left$/);
  });

  it('standing marks on the live page, and a sound that is off on every one', () => {
    shown(
      { stage: 'hold', bar: 1.5, standing: ['practice', 'no-margin', 'not-zeroed'] },
      { blocked: 'not-heard' },
    );
    expect(screen.getByTestId('standing-no-margin').textContent).toBe(STANDING['no-margin'].mark);
    expect(screen.queryByTestId('standing-practice')).toBeNull();
    expect(screen.getByTestId('sound-blocked').textContent).toContain(FACE.soundOff);
    expect(screen.getByTestId('sound-blocked').textContent).toContain(NO_SOUND['not-heard']);
  });

  it('in the hand several marks are counted, and each is still there to be read aloud', () => {
    shown({ stage: 'hold', bar: 1.5, standing: ['no-margin', 'not-zeroed'] }, { small: true });
    expect(screen.getByText(FACE.marks(2)).getAttribute('aria-hidden')).toBe('true');
    expect(screen.getByTestId('standing-not-zeroed').className).toContain('visually-hidden');
  });

  it('on another page it has the pressure with its state and the stage', () => {
    const { show } = shown({ stage: 'hold', bar: 1.5 }, { onLive: false });
    expect(plain(screen.getByTestId('glance'))).toBe('1.50 bar');
    expect(document.querySelector('.stage-plate')?.textContent).toBe('Hold');
    show({ bar: null, alarms: [alarm({ alarm: 'pressure-lost' })] });
    expect(screen.getByTestId('glance').dataset.trust).toBe('lost');
    expect(plain(screen.getByTestId('glance'))).toBe(UI.lostReading);
  });
});
