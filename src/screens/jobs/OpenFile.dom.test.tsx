import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { toBundle } from '../../job/bundle.ts';
import type { StoredDocument } from '../../record/stores/store.ts';
import { METRIC } from '../../units/display.ts';
import { DEMO } from '../../words/testing/demo.ts';
import { type Services, ServicesContext } from '../context.ts';
import { takeHanded } from '../verify/handed.ts';
import { OpenFile } from './OpenFile.tsx';

afterEach(cleanup);

function page(here: readonly StoredDocument[]) {
  const put: StoredDocument[] = [];
  const say = vi.fn();
  const go = vi.fn();
  const fail = vi.fn();
  const ask = async (request: Request): Promise<unknown> => {
    if (request.q === 'document')
      return here.find((d) => d.kind === request.kind && d.id === request.id) ?? null;
    if (request.q === 'put-document') put.push(request.document);
    return request.q === 'put-document' ? request.document : null;
  };
  render(() => (
    <ServicesContext.Provider value={{ ask, say, go, fail, units: () => METRIC } as unknown as Services}>
      <OpenFile />
    </ServicesContext.Provider>
  ));
  const open = (text: string) =>
    fireEvent.change(screen.getByTestId('job-file'), {
      target: { files: [new File([text], 'x.job.json')] },
    });
  return { put, say, go, fail, open };
}

describe('opening a sheet file', () => {
  it('takes job, packer, resin and sensors over and leads to the sheet', async () => {
    const { put, go, fail, open } = page([]);
    open(JSON.stringify(toBundle(DEMO)));
    await waitFor(() => expect(go).toHaveBeenCalledExactlyOnceWith({ page: 'sheet', jobId: DEMO.jobId }));
    expect(put.map((d) => d.kind).sort()).toEqual(
      ['job', 'packer', 'resin', ...DEMO.sensors.map(() => 'sensor')].sort(),
    );
    expect(fail).not.toHaveBeenCalled();
  });

  it('never overwrites what is here: the packer stays, the sheet becomes another one', async () => {
    const mine = (kind: 'job' | 'packer', id: string): StoredDocument => ({
      kind,
      id,
      revision: 3,
      savedUtcMs: 0,
      body: { mine: true },
    });
    const { put, go, open } = page([mine('job', DEMO.jobId), mine('packer', DEMO.packer!.id)]);
    open(JSON.stringify(toBundle(DEMO)));
    await waitFor(() => expect(go).toHaveBeenCalled());
    expect(put.some((d) => d.kind === 'packer')).toBe(false);
    const job = put.find((d) => d.kind === 'job')!;
    expect(job.id).not.toBe(DEMO.jobId);
    expect(go).toHaveBeenCalledWith({ page: 'sheet', jobId: job.id });
  });

  it.each([
    ['not JSON', '{"schema": ', 'no sheet file'],
    ['another schema', '{"schema":"other/1"}', 'schema: Carries no version'],
    [
      'a wrong number',
      JSON.stringify(toBundle(DEMO)).replace('"rateHz":20', '"rateHz":20000'),
      'job.device.rateHz: Too high: at most 1000\u00a0Hz.',
    ],
  ])('%s is refused with its reason, and nothing is kept', async (_name, text, reason) => {
    const { put, say, go, open } = page([]);
    open(text);
    await waitFor(() => expect(say).toHaveBeenCalled());
    expect(say.mock.calls[0]![0]).toContain(reason);
    expect(put).toEqual([]);
    expect(go).not.toHaveBeenCalled();
  });

  it('a record’s file goes to be verified, once, and nothing of it is kept', async () => {
    const { put, go, open } = page([]);
    open('PK\u0003\u0004 and more');
    await waitFor(() => expect(go).toHaveBeenCalledExactlyOnceWith({ page: 'verify' }));
    expect((await takeHanded()?.text())?.startsWith('PK')).toBe(true);
    expect(takeHanded()).toBeNull();
    expect(put).toEqual([]);
  });
});
