import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { ALARM_TABLE } from '../../watch/alarms/table.ts';
import type { Stage } from '../../watch/codes.ts';
import { CARD } from '../../words/card.ts';
import { METRIC } from '../../words/format.ts';
import { VERBS } from '../../words/orders.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { UI } from '../../words/ui.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Card } from './Card.tsx';
import { cardOrders } from './orders.ts';

const sheets = document.adoptedStyleSheets;
afterEach(() => {
  cleanup();
  document.adoptedStyleSheets = sheets;
});

type Run = { readonly jobId: string | null };

function show(jobId: string | null, stored: Readonly<Record<string, unknown>> = {}, live: object = {}) {
  const go = vi.fn();
  const services = {
    ask: async (request: Request) => {
      const of = (id: string) =>
        id in stored ? { kind: 'job', id, revision: 1, savedUtcMs: 1, body: stored[id] } : null;
      if (request.q === 'document') return request.kind === 'job' ? of(request.id) : null;
      return request.q === 'documents' ? Object.keys(stored).map(of) : null;
    },
    live: {
      run: (): Run | null => null,
      link: () => null,
      view: () => null,
      setup: () => null,
      ...live,
    },
    settings: defaultSettings,
    sensorRuns: () => [],
    units: () => METRIC,
    nowMs: () => new Date(2026, 10, 28, 9).getTime(),
    go,
    fail: (error: unknown) => {
      throw error;
    },
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <Card jobId={jobId} />
    </ServicesContext.Provider>
  ));
  return go;
}

const values = (testId: string) =>
  [...screen.getByTestId(testId).querySelectorAll('dd')].map((dd) => dd.textContent?.trim() ?? '');

describe('the orders of the card', () => {
  it('are those of the live page, for every urgent and high alarm in the stage that is named', () => {
    const all: readonly Stage[] = ['prepare', 'seat', 'inflate', 'hold', 'let-down'];
    let asked = 0;
    for (const { alarm, priority, stages } of ALARM_TABLE) {
      const under = cardOrders().flatMap(({ verb, call, alarms }) =>
        alarms.filter((a) => a.code === alarm).map((a) => ({ verb, call, ...a })),
      );
      if (priority === 'low') {
        expect(under, alarm).toEqual([]);
        continue;
      }
      for (const stage of all.filter((s) => stages.includes(s))) {
        const values = alarm === 'rebound' && stage === 'prepare' ? { cause: 'unannounced' } : {};
        const order = VERBS[alarm]({ state: 'unacknowledged', values }, { stage });
        const named = under.filter(
          ({ when }) => when !== null && when !== 'otherwise' && when.includes(stage),
        );
        const found =
          named.length > 0 ? named : under.filter(({ when }) => when === null || when === 'otherwise');
        // An alarm by two titles stands under each with its own order.
        expect(
          found.map(({ verb, call }) => [verb, call]),
          `${alarm} in ${stage}`,
        ).toContainEqual([order.verb, order.call]);
        if (alarm !== 'rebound') expect(found, `${alarm} in ${stage}`).toHaveLength(1);
        asked++;
      }
    }
    expect(asked).toBeGreaterThan(70);
  });

  it('stand on the page as they are, each with its shape', async () => {
    show(null);
    const list = await screen.findByTestId('card-orders');
    const orders = cardOrders();
    expect(list.children).toHaveLength(orders.length);
    orders.forEach(({ verb, call, alarms }, i) => {
      const item = list.children[i]!;
      const said = item.querySelector('strong')?.textContent?.replace(/\s+/g, ' ').trim();
      expect(said).toBe([...verb, ...(call === null ? [] : [call])].join(' '));
      const shapes = [...item.querySelectorAll('ul > li')].map((li) =>
        li
          .querySelector('.alarm-shape')
          ?.classList.contains(li.textContent?.startsWith('Urgent') ? 'urgent' : 'high'),
      );
      expect(shapes).toEqual(alarms.map(() => true));
    });
  });
});

describe('the numbers of the card', () => {
  it('without a job are lines to write on, and the ceiling has its name', async () => {
    show(null);
    expect((await screen.findByTestId('card-pressures')).querySelectorAll('.tailgate-line')).toHaveLength(5);
    expect(screen.getByTestId('card-times').querySelectorAll('.tailgate-line')).toHaveLength(4);
    expect(screen.getByTestId('card-written').querySelectorAll('.tailgate-line')).toHaveLength(3);
    expect(screen.getByTestId('card-dark').textContent).toContain('At the ceiling or over');
    expect(screen.getByTestId('card-stages').textContent).toContain('Open the valve slowly.');
  });

  it('are those of the job’s plan; what is not known is a line; the run’s own ceiling goes before the plan’s', async () => {
    const job = {
      ...DEMO.job,
      title: 'Crack',
      crew: 'A.B.',
      pressures: { ...DEMO.job.pressures, workingBar: 1.5 },
    };
    show('j', { j: job });
    await waitFor(() => expect(values('card-pressures')[0]).toBe('1.80\u00a0bar'));
    const [, ceiling, working] = values('card-pressures');
    expect(working).toBe('1.50\u00a0bar');
    expect(screen.getByTestId('card-dark').textContent).toContain(`At ${ceiling} or over`);
    expect(screen.getByTestId('card-stages').textContent).toContain(
      'Open the valve slowly to 1.50\u00a0bar.',
    );
    expect(values('card-times')).toContain('A.B.');
    expect(screen.getByTestId('card').textContent).toContain('Planned 2026-11-28.');
    expect(screen.queryByText(UI.practiceBanner)).toBeNull();
    cleanup();

    const limits = { ratedBar: 1.8, ceilingBar: 1.62, workingBar: 1.5, seatBar: null, floorBar: null };
    show(
      'j',
      { j: job },
      { run: (): Run => ({ jobId: 'j' }), setup: () => ({ limits, resin: null, ground: null }) },
    );
    await waitFor(() => expect(values('card-pressures')[1]).toBe('1.62\u00a0bar'));
    // No seat pause is planned: the card asks for none.
    expect(screen.getByTestId('card-stages').textContent).not.toContain('dial gauge');
  });

  it('say so where the plan refuses the job, where it is practice, and where it is gone', async () => {
    const job = { ...DEMO.job, pressures: { ...DEMO.job.pressures, workingBar: 2.4 } };
    show('j', { j: job });
    expect(await screen.findByText(CARD.refused)).toBeTruthy();
    cleanup();
    show(DEMO.jobId);
    expect(await screen.findByText(UI.practiceBanner)).toBeTruthy();
    cleanup();
    show('lost');
    expect(await screen.findByText(CARD.gone)).toBeTruthy();
    expect(screen.getByTestId('card-pressures').querySelectorAll('.tailgate-line')).toHaveLength(5);
  });

  it('another job is chosen above it', async () => {
    const go = show(null, { j: { ...DEMO.job, title: 'Crack' } });
    await waitFor(() => expect(screen.getByRole('option', { name: 'Crack' })).toBeTruthy());
    fireEvent.change(screen.getByTestId('card-job'), { target: { value: 'j' } });
    expect(go).toHaveBeenCalledWith({ page: 'card', jobId: 'j' });
  });
});
