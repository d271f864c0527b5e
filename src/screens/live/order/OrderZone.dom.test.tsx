import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { WatchView } from '../../../watch/view.ts';
import { HOLD_MS } from '../../../widgets/Key.tsx';
import { REST_MS } from '../../../widgets/press-guard.ts';
import { LAMP } from '../../../words/face.ts';
import { ServicesContext, useServices } from '../../context.ts';
import { createActions } from '../actions.ts';
import { createFace } from '../face.ts';
import { layoutOf } from '../layout.ts';
import { createMore, type More } from '../more/state.ts';
import { createStart } from '../start.ts';
import { liveBench } from '../testing/bench.ts';
import { alarm, guard } from '../testing/scene.ts';
import { OrderZone } from './OrderZone.tsx';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function shown(first: Partial<WatchView> = {}, layout = layoutOf(1180, 820, false)) {
  const bench = liveBench(first);
  let more!: More;
  const Zone = () => {
    const app = useServices();
    const start = createStart(app, () => null);
    more = createMore();
    const face = createFace(app, start);
    const actions = createActions(app, start, more);
    return <OrderZone face={face} layout={layout} actions={actions} more={more} />;
  };
  render(() => (
    <ServicesContext.Provider value={bench.services}>
      <Zone />
    </ServicesContext.Provider>
  ));
  // What stands there is seen.
  vi.advanceTimersByTime(5000);
  return { ...bench, more };
}

const INFLATE = { stage: 'inflate', bar: 0.6, guard: guard({ rateBarPerS: 0.02 }) } as const;
const CEILING = alarm({ alarm: 'ceiling', values: { ceilingBar: 1.74, bar: 1.75 } });
const LEAK = alarm({ alarm: 'leaking', priority: 'high', values: { mbarPerMin: 8, floorBar: 0.77 } });
const STUCK = alarm({ alarm: 'stuck', priority: 'low', values: { bar: 0.6 } });

const key = () => screen.getByTestId('stage-key');
const ack = () => screen.queryByTestId('ack');
const tap = (el: HTMLElement) => {
  fireEvent.pointerDown(el, { button: 0 });
  fireEvent.pointerUp(el);
  fireEvent.click(el, { detail: 1 });
};
/** As a browser does it: the key goes down, up, and the button is clicked by it. */
const enter = (el: HTMLElement) => {
  fireEvent.keyDown(el, { key: 'Enter' });
  fireEvent.keyUp(el, { key: 'Enter' });
  fireEvent.click(el, { detail: 0 });
};

// 'No: a hand was at valve or regulator' and 'press and hold' ran out of their key on a phone and on an upright tablet.
it.each([
  [360, 740],
  [820, 1180],
] as const)('an answer that is held is as large as its key has room at %i by %i', (width, height) => {
  const supply = {
    phase: 'rising',
    leftS: null,
    asked: true,
    lockUpBar: null,
    verdict: null,
    creepMbarPerMin: null,
    ceilingInS: null,
    proved: false,
  } as const;
  shown({ stage: 'prepare', bar: 0.4, supply }, layoutOf(width, height, false));
  const px = (id: string) => Number.parseFloat(screen.getByTestId(id).style.fontSize);
  expect(px('supply-slow')).toBeLessThan(17);
  expect(px('supply-slow')).toBeLessThanOrEqual(px('supply-packer'));
});

describe('what the order zone says', () => {
  it('at rest: one instruction, More and the stage key; nothing to acknowledge', () => {
    shown(INFLATE);
    expect(screen.getByTestId('say').textContent).toMatch(/^Open the valve slowly/);
    expect(screen.getByTestId('more').textContent).toBe('More');
    expect(key().textContent).toContain('Start the hold');
    expect(ack()).toBeNull();
    expect(screen.getByTestId('zone-order').dataset.form).toBe('none');
  });

  it('under an urgent alarm: the verb in place of the instruction, Acknowledge in place of More, the key demoted', () => {
    const { show } = shown(INFLATE);
    show({ alarms: [CEILING] });
    expect(screen.getByTestId('zone-order').dataset.form).toBe('urgent');
    expect(screen.getByTestId('verb').textContent?.trim()).toBe('AIR OFF OPEN VENT');
    expect(screen.queryByTestId('instruction')).toBeNull();
    expect(screen.queryByTestId('more')).toBeNull();
    expect(ack()?.textContent).toBe('Acknowledge');
    expect(key().textContent).toBe('Change stage: press and hold');
    expect(key().dataset.look).toBe('hold');
  });

  it('acknowledged: it says since when, the colour stays and More comes back', () => {
    const { show } = shown(INFLATE);
    show({ alarms: [{ ...CEILING, state: 'acknowledged' }] });
    expect(screen.getByTestId('acknowledged').textContent).toMatch(/^Acknowledged 10\ss ago$/);
    expect(screen.getByTestId('zone-order').dataset.form).toBe('urgent');
    expect(screen.queryByTestId('more')).not.toBeNull();
    expect(ack()).toBeNull();
  });

  it('over and not acknowledged: told without an order', () => {
    const { show } = shown(INFLATE);
    show({ alarms: [{ ...CEILING, state: 'returned' }] });
    expect(screen.getByTestId('zone-order').dataset.form).toBe('was');
    expect(screen.getByTestId('verb').textContent).toMatch(/^Ended: acknowledge it\. Was: At the ceiling/);
    expect(ack()).not.toBeNull();
  });

  it('a low one leaves the instruction its place and stands as a plate with its own key', () => {
    const { show } = shown(INFLATE);
    show({ alarms: [STUCK] });
    expect(screen.getByTestId('say').textContent).toMatch(/^Open the valve/);
    expect(screen.getByTestId('alarm-stuck').dataset.priority).toBe('low');
    expect(ack()?.dataset.alarm).toBe('stuck');
    expect(key().dataset.does).toBe('stage');
  });

  it('several: the highest takes the stage, and the key says which one it is for', () => {
    const { show } = shown(INFLATE);
    show({ alarms: [LEAK, { ...CEILING, state: 'acknowledged' }] });
    expect(screen.getByTestId('alarm-ceiling')).not.toBeNull();
    expect(ack()?.dataset.alarm).toBe('leaking');
    expect(ack()?.textContent).toMatch(/^Acknowledge the next: /);
  });

  it('a fast fall asks, with two keys that weigh the same', async () => {
    const { show, commands } = shown({ stage: 'hold', bar: 1.4 });
    show({
      question: 'let-down-or-loss',
      alarms: [alarm({ alarm: 'fast-fall', priority: 'high', values: { bar: 0.9, floorBar: 0.77 } })],
    });
    expect(screen.getByTestId('verb').textContent?.trim()).toBe('KEEP CLEAR');
    vi.advanceTimersByTime(REST_MS + 10);
    tap(screen.getByTestId('answer-loss'));
    expect(commands).toEqual([{ c: 'answer', question: 'let-down-or-loss', answer: 'loss' }]);
  });
});

describe('its keys', () => {
  it('the dial gauge: first the key leads to the field, with the value typed it compares', () => {
    const { commands, more } = shown({ stage: 'seat', bar: 0.4, guard: guard({ rateBarPerS: 0 }) });
    tap(key());
    expect([more.tab(), more.wanted(), commands]).toEqual(['checks', 'gauge-value', []]);
    tap(key());
    expect(commands).toEqual([]);
    more.typeGauge(0.41);
    tap(key());
    expect(commands).toEqual([{ c: 'gauge', bar: 0.41 }]);
    // Typed and out of sight it is kept, and no press sends it unseen.
    more.close();
    tap(key());
    expect([more.tab(), commands.length]).toEqual(['checks', 1]);
  });

  it('Acknowledge is not taken before it can have been read, then it is, by finger and by keyboard', () => {
    const { show, commands } = shown(INFLATE);
    show({ alarms: [CEILING] });
    vi.advanceTimersByTime(REST_MS - 50);
    tap(ack()!);
    enter(ack()!);
    expect(commands).toEqual([]);
    vi.advanceTimersByTime(100);
    enter(ack()!);
    expect(commands).toEqual([{ c: 'acknowledge', alarm: 'ceiling', occurrence: 1 }]);
  });

  it('a press for one alarm does not acknowledge another that came under the finger', () => {
    const { show, commands } = shown(INFLATE);
    show({ alarms: [LEAK] });
    vi.advanceTimersByTime(5000);
    fireEvent.pointerDown(ack()!, { button: 0 });
    show({ alarms: [CEILING, LEAK] });
    vi.advanceTimersByTime(5000);
    fireEvent.pointerUp(ack()!);
    fireEvent.click(ack()!, { detail: 1 });
    expect(commands).toEqual([]);
  });

  it('a press of the stage key that began before the alarm changes no stage', () => {
    const { show, commands, more } = shown({ ...INFLATE, bar: 1.5, guard: guard({ rateBarPerS: 0 }) });
    fireEvent.pointerDown(key(), { button: 0 });
    show({ alarms: [CEILING] });
    vi.advanceTimersByTime(5000);
    fireEvent.pointerUp(key());
    fireEvent.click(key(), { detail: 1 });
    expect(commands).toEqual([]);
    expect(more.tab()).toBeNull();
  });

  it('demoted it opens the stages when held, by finger or by a key that is held down', () => {
    const { show, more } = shown(INFLATE);
    show({ alarms: [CEILING] });
    vi.advanceTimersByTime(5000);
    tap(key());
    expect(more.tab()).toBeNull();
    fireEvent.keyDown(key(), { key: ' ' });
    vi.advanceTimersByTime(HOLD_MS + 10);
    fireEvent.keyUp(key(), { key: ' ' });
    expect(more.tab()).toBe('stages');
  });
});

describe('for a screen reader', () => {
  it('alarms come before the instruction, the order before its keys', () => {
    const { show } = shown(INFLATE);
    const ids = () =>
      [...screen.getByTestId('zone-order').querySelectorAll('[role], [data-testid]')].map(
        (e) => e.getAttribute('role') ?? (e as HTMLElement).dataset.testid,
      );
    expect(ids()).toEqual(['alert', 'status', 'instruction', 'say', 'more', 'stage-key']);
    show({ alarms: [CEILING] });
    const under = ids();
    expect(under.slice(0, 2)).toEqual(['alert', 'status']);
    expect(under.indexOf('verb')).toBeLessThan(under.indexOf('ack'));
    expect(under.indexOf('ack')).toBeLessThan(under.indexOf('stage-key'));
  });

  it('an alarm is told once, with its priority; its numbers are not read out', () => {
    const { show } = shown(INFLATE);
    const alert = screen.getByTestId('zone-order').querySelector('[role=alert]')!;
    expect(alert.textContent).toBe('');
    show({ alarms: [CEILING] });
    expect(alert.textContent?.toLowerCase()).toContain(LAMP.urgent);
    const told = alert.textContent;
    const changes = new MutationObserver(() => undefined);
    changes.observe(alert, { childList: true, characterData: true, subtree: true });
    for (let i = 0; i < 20; i++) {
      show({
        alarms: [{ ...CEILING, values: { ...CEILING.values, bar: 1.75 + i / 100 } }],
        tUs: 100e6 + i * 1e6,
      });
      vi.advanceTimersByTime(250);
    }
    expect(changes.takeRecords()).toEqual([]);
    expect(alert.textContent).toBe(told);
    show({ alarms: [{ ...CEILING, state: 'acknowledged' }] });
    expect(alert.textContent).toBe('');
  });

  it('a count in an instruction is told when it begins and not with every second', () => {
    const { show } = shown({ ...INFLATE, bar: 1.3 });
    const status = screen.getByTestId('zone-order').querySelector('[role=status]')!;
    const cue = (s: number) =>
      show({
        tUs: 100e6 + (12 - s) * 1e6,
        guard: guard({ rateBarPerS: 0.05, closeInS: { value: s, low: s, high: s } }),
      });
    cue(11.5);
    vi.advanceTimersByTime(300);
    const told = status.textContent;
    expect(told).toMatch(/shut the valve/);
    const changes = new MutationObserver(() => undefined);
    changes.observe(status, { childList: true, characterData: true, subtree: true });
    for (let s = 10.5; s > 1; s--) {
      cue(s);
      vi.advanceTimersByTime(1000);
    }
    expect(screen.getByTestId('say').textContent).toMatch(/^In 1\ss/);
    expect(changes.takeRecords()).toEqual([]);
    cue(0.4);
    vi.advanceTimersByTime(300);
    expect(status.textContent).toBe('Shut the valve now.');
  });
});
