import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { defaultSettings } from '../../job/settings-defaults.ts';
import { EVIDENCE } from '../../words/evidence.ts';
import { type Services, ServicesContext } from '../context.ts';
import { StatusPart } from './StatusPart.tsx';

afterEach(cleanup);

function show(asksReason: boolean): string[] {
  const asked: string[] = [];
  const evidence = async ({ status }: { status: string }) => {
    asked.push(status);
    return [];
  };
  render(() => (
    <ServicesContext.Provider
      value={{ evidence, fail() {}, settings: defaultSettings } as unknown as Services}
    >
      <StatusPart
        source={{ kind: 'run', runId: 'run-1' }}
        lines={[]}
        asksReason={asksReason}
        onChange={() => {}}
      />
    </ServicesContext.Provider>
  ));
  fireEvent.input(screen.getByTestId('review-by'), { target: { value: 'B. Test' } });
  return asked;
}

it('a record with exceptions is not accepted by a bare name', async () => {
  const asked = show(true);
  fireEvent.click(screen.getByTestId('release'));
  expect(screen.getByRole('alert').textContent).toBe(EVIDENCE.acceptReasonNeeded);
  expect(asked).toEqual([]);
  fireEvent.input(screen.getByTestId('review-reason'), { target: { value: 'Seen on the camera' } });
  fireEvent.click(screen.getByTestId('release'));
  await waitFor(() => expect(asked).toEqual(['released']));
});

it('one without is', async () => {
  const asked = show(false);
  fireEvent.click(screen.getByTestId('release'));
  await waitFor(() => expect(asked).toEqual(['released']));
});
