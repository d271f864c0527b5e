import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import type { EngineNews, Request } from '../../engine/messages.ts';
import { createHostBench } from '../../engine/testing/bench.ts';
import { readBenchFile } from '../../job/bench-file.ts';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { benchRecord } from '../../job/testing/bench-record.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { keep, loadAll } from '../documents/store.ts';
import { Bench } from './Bench.tsx';

afterEach(cleanup);

/** The page over the whole engine, whose clock runs while it is asked. */
function createPage(isRunning = false) {
  const engine = createHostBench();
  type Moment = Extract<EngineNews, { m: 'moment' }>;
  const [moment, setMoment] = createSignal<Moment | null>(null);
  const said: string[] = [];
  const went: unknown[] = [];
  const asked: Request['q'][] = [];
  const services = {
    ask: async (request: Request) => {
      asked.push(request.q);
      const answer = await engine.ask(request, 60_000);
      await engine.run(200);
      const last = engine.moments().at(-1);
      if (last?.m === 'moment') setMoment(last);
      return answer;
    },
    live: {
      link: () => moment()?.link ?? null,
      view: () => moment()?.view ?? null,
      rig: () => moment()?.rig ?? null,
      run: () => (isRunning ? { runId: 'r' } : null),
      setup: () => null,
    },
    settings: defaultSettings,
    sensorRuns: () => [],
    units: () => METRIC,
    serial: { supported: true, choose: async () => null },
    say: (text: string) => said.push(text),
    fail: (error: unknown) => said.push(String(error)),
    go: (route: unknown) => went.push(route),
  };
  const app = services as unknown as Services;
  const show = (id: string | null) =>
    render(() => (
      <ServicesContext.Provider value={app}>
        <Bench id={id} />
      </ServicesContext.Provider>
    ));
  return { app, engine, said, went, asked, show };
}

describe('the bench page', () => {
  it('tries the practice rig, keeps what was found, and never as a real device’s', async () => {
    const page = createPage();
    page.show(null);
    fireEvent.click(screen.getByTestId('bench-practice'));
    await screen.findByTestId('bench-device');
    expect(screen.getByTestId('bench-device').textContent).toContain('RIG-0001');
    const step = () => screen.getByTestId('point-step').textContent;
    await waitFor(() => expect(step()).toContain('mbar'), { timeout: 4000 });
    fireEvent.click(screen.getByTestId('bench-zero'));
    await waitFor(() => expect(screen.getByTestId('point-zero').textContent).toContain('mbar'), {
      timeout: 4000,
    });
    fireEvent.input(screen.getByTestId('bench-by'), { target: { value: 'C. D.' } });
    fireEvent.click(screen.getByTestId('bench-keep'));
    await waitFor(() => expect(page.went).toHaveLength(1), { timeout: 4000 });
    const [kept] = (await loadAll(page.app, 'bench')).kept;
    expect(kept!.document).toMatchObject({
      deviceId: 'RIG-0001',
      practice: true,
      by: 'C. D.',
      origin: 'own',
    });
    expect(kept!.document.said).toHaveLength(6);
    cleanup();
    page.show(kept!.id);
    await screen.findByTestId('bench-is-practice');
  }, 20_000);

  it('arms the device’s own guard, and takes the limit away when the page is left', async () => {
    const page = createPage();
    page.show(null);
    fireEvent.click(screen.getByTestId('bench-practice'));
    await screen.findByTestId('bench-arm');
    await page.app.ask({ q: 'bench-lines', from: 0 });
    await waitFor(() => expect(screen.queryByTestId('bench-listened')).not.toBeNull());
    await new Promise((resolve) => setTimeout(resolve, 800));
    fireEvent.click(screen.getByTestId('bench-arm'));
    await screen.findByTestId('bench-disarm', {}, { timeout: 4000 });
    expect(page.engine.moment().link.deviceGuard).toMatchObject({ state: 'armed', limitMbar: 300 });
    cleanup();
    await page.engine.run(2000);
    expect(page.engine.moment().link.deviceGuard?.state).toBe('unarmed');
  }, 20_000);

  it('while a run is going on it asks nothing of the line, and says so', async () => {
    const page = createPage(true);
    page.show(null);
    expect(screen.getByTestId('bench-in-run').textContent).toContain('run');
    expect(screen.queryByTestId('bench-connect')).toBeNull();
    await new Promise((resolve) => setTimeout(resolve, 500));
    expect(page.asked.filter((q) => q !== 'documents')).toEqual([]);
  });

  it('takes a record out of a file as one, and says of a bad one what is wrong', async () => {
    const page = createPage();
    page.show(null);
    const drop = (text: string) =>
      fireEvent.change(screen.getByTestId('bench-file'), {
        target: { files: [new File([text], 'b.json', { type: 'application/json' })] },
      });
    drop('{"schema":"steadybar-bench/1","record":{"version":1}}');
    await waitFor(() => expect(page.said.at(-1)).toContain('deviceId'));
    const { benchFileText } = await import('../../job/bench-file.ts');
    drop(benchFileText(benchRecord()));
    await waitFor(async () => expect((await loadAll(page.app, 'bench')).kept).toHaveLength(1));
    expect((await loadAll(page.app, 'bench')).kept[0]!.document.origin).toBe('file');
  });

  it('a kept record stands with every point, refused lines and what the device said', async () => {
    const page = createPage();
    await keep(page.app, 'bench', 'bench-1', 0, benchRecord());
    page.show('bench-1');
    const sheet = await screen.findByTestId('bench-record');
    expect(sheet.textContent).toContain('SB-0042');
    expect(sheet.textContent).toContain('H,1,SB-0042');
    expect(screen.getByTestId('point-guard').textContent).toContain('Bad');
    expect(screen.queryByTestId('bench-is-practice')).toBeNull();
    expect(readBenchFile('{}').ok).toBe(false);
  });
});
