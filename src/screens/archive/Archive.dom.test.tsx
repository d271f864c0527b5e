import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import type { ArchiveEntry, EvidenceRequest } from '../../evidence/messages.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { entry, sketch } from '../testing/told-data.ts';
import { Archive } from './Archive.tsx';

afterEach(cleanup);

const sha = (i: number) => i.toString(16).padStart(64, '0');
const kept = (i: number): ArchiveEntry => ({
  ...entry,
  ref: { kind: 'import', sha256: sha(i) },
  runId: `run-${i}`,
  title: `Joint ${i}`,
  practice: false,
  state: 'ended',
  cure: i === 77 ? 'not-met' : 'met',
  ceiling: i === 78 ? 'passed' : 'kept',
});

/** An archive of kept files, and which pictures it asked for. */
function shown(n: number) {
  const asked: string[] = [];
  const evidence = async (request: EvidenceRequest) => {
    if (request.q === 'archive') return Array.from({ length: n }, (_, i) => kept(i));
    if (request.q !== 'sketch' || request.ref.kind !== 'import') throw new Error(request.q);
    asked.push(request.ref.sha256);
    return sketch;
  };
  const app = { evidence, units: () => METRIC, fail: () => undefined } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={app}>
      <Archive />
    </ServicesContext.Provider>
  ));
  return asked;
}

const rows = () => document.querySelectorAll('.record-row').length;
const count = () => screen.getByTestId('archive-count').textContent;

it('of a long list the first rows are drawn and asked for; a press brings more, and what is looked for stays', async () => {
  const asked = shown(100);
  await screen.findByText('Joint 0');
  expect(rows()).toBe(40);
  // Each chip knows its number without a picture of every record.
  expect(screen.getByTestId('chip-cure').textContent).toContain('1');
  expect(screen.getByTestId('chip-ceiling').textContent).toContain('1');
  fireEvent.click(screen.getByTestId('archive-more'));
  expect([rows(), screen.getByTestId('archive-more').textContent]).toEqual([80, 'Show more: 20 to come']);
  fireEvent.click(screen.getByTestId('archive-more'));
  expect([rows(), screen.queryByTestId('archive-more')]).toEqual([100, null]);
  fireEvent.click(screen.getByTestId('chip-cure'));
  expect([rows(), screen.getByText('Joint 77').textContent]).toEqual([1, 'Joint 77']);
  await Promise.resolve();
  expect(new Set(asked).size).toBe(asked.length);
  cleanup();
  // One opened a record and comes back.
  const again = shown(100);
  await screen.findByText('Joint 77');
  expect([rows(), count()?.startsWith('1 of 100 ')]).toEqual([1, true]);
  await Promise.resolve();
  expect(again).toEqual([sha(77)]);
  fireEvent.click(screen.getByTestId('chip-all'));
  expect(rows()).toBe(40);
});
