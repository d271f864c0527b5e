import { cleanup, render, screen } from '@solidjs/testing-library';
import { Suspense } from 'solid-js';
import { afterEach, expect, it, vi } from 'vitest';
import type { EvidenceRequest } from '../../evidence/messages.ts';
import type { UnitChoice } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { sketch } from '../testing/told-data.ts';
import { CompareTable } from './CompareTable.tsx';

afterEach(cleanup);

const UNITS: UnitChoice = { pressure: 'psi', temperature: 'F', length: 'in' };
const OPENED = Date.UTC(2026, 3, 14, 9, 0);

function shown(fails: string | null = null) {
  const asked: string[] = [];
  const fail = vi.fn();
  const evidence = async (request: EvidenceRequest) => {
    if (request.q !== 'record' && request.q !== 'statuses') throw new Error(request.q);
    const { ref } = request;
    const id = ref.kind === 'run' ? ref.runId : '';
    asked.push(`${request.q} ${id}`);
    if (id === fails) throw new Error('missing');
    if (request.q === 'statuses')
      return id === 'run-a' ? [{ status: 'released', by: 'M. B.', reason: '', utcMs: OPENED }] : [];
    return {
      ref,
      detail: { summary: { title: `Job of ${id}`, openedUtcMs: OPENED }, utcMs: OPENED, firstUs: 0 },
      numbers: { ...sketch.numbers, highestHoldBar: id === 'run-a' ? 1.5 : 1.4 },
      account: sketch.account,
    };
  };
  const services = { evidence, fail, units: () => UNITS } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <Suspense fallback={<p>waits</p>}>
        <CompareTable ids={['run-a', 'run-b']} />
      </Suspense>
    </ServicesContext.Provider>
  ));
  return { asked, fail };
}

it('has a column a run, numbered as in the picture, and every figure in the units that are set', async () => {
  shown();
  const table = (await screen.findByRole('table')) as HTMLTableElement;
  const rows = [...table.rows].map((row) =>
    [...row.cells].map((c) => c.textContent?.replaceAll('\u00a0', ' ')),
  );
  expect(rows[0]).toEqual(['Run', '1 Job of run-a', '2 Job of run-b']);
  const row = (name: string) => rows.find(([n]) => n === name)?.slice(1);
  // 1.5 and 1.4 bar.
  expect(row('Peak in the hold')).toEqual(['21.8 psi', '20.3 psi']);
  expect(row('Lowest in the hold')).toEqual(['18.9 psi', '18.9 psi']);
  expect(row('Coldest likely spot while curing')?.[0]).toMatch(/^48\.2 °F/);
  expect(row('Hold begun')?.[0]).toMatch(/^\d\d:10$/);
  expect(row('Gone on against advice')).toEqual(['2', '2']);
  expect(row('Decision')).toEqual(['Accepted', 'No decision']);
  expect(row('Recorded')?.[0]).toMatch(/^2026-04-14 .*UTC/);
  for (const cells of rows) expect(cells).toHaveLength(3);
});

it('a record that cannot be read is told, and no half table is shown', async () => {
  const { fail } = shown('run-b');
  await vi.waitFor(() => expect(fail).toHaveBeenCalledOnce());
  expect(screen.queryByRole('table')).toBeNull();
});
