import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { DOCS } from '../../words/docs.ts';
import { METRIC } from '../../words/format.ts';
import { NUMBER_FIELD } from '../../words/issues.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Documents } from './Documents.tsx';

const asked: string[] = [];
afterEach(() => {
  cleanup();
  asked.length = 0;
});

function open(kind: 'packer' | 'resin') {
  const ask = async ({ q }: { q: string }) => {
    asked.push(q);
    return [];
  };
  const services = { ask, units: () => METRIC, sensorRuns: () => [], fail() {}, say() {} };
  render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <Documents kind={kind} id="new" />
    </ServicesContext.Provider>
  ));
}
const field = (testId: string) => screen.getByTestId<HTMLInputElement>(testId);
const said = (testId: string) => field(testId).parentElement?.querySelector('[role=alert]')?.textContent;

it('a new packer has no rated pressure: its fields are empty, nothing is saved without them, and they say so when they are asked for', async () => {
  open('packer');
  await waitFor(() => field('packer-name'));
  for (const id of ['sizes.minMm', 'sizes.maxMm', 'ratings.0.diameterMm', 'ratings.0.ratedBar']) {
    expect(field(`packer-${id}`).value).toBe('');
    // What nobody has filled yet is no fault of anybody's.
    expect(said(`packer-${id}`)).toBeUndefined();
  }
  const save = screen.getByTestId<HTMLButtonElement>('save-document');
  const refused = () => {
    fireEvent.click(save);
    return screen.queryByTestId('not-saved') !== null;
  };
  expect(refused()).toBe(true);
  expect(said('packer-sizes.minMm')).toBe(NUMBER_FIELD.empty);
  expect(document.activeElement).toBe(field('packer-name'));
  const typed = {
    name: 'P 100-150',
    'sizes.minMm': '100',
    'sizes.maxMm': '150',
    'ratings.0.diameterMm': '150',
  };
  for (const [id, value] of Object.entries(typed))
    fireEvent.input(field(`packer-${id}`), { target: { value } });
  expect(refused()).toBe(true);
  expect(document.activeElement).toBe(field('packer-ratings.0.ratedBar'));
  fireEvent.input(field('packer-ratings.0.ratedBar'), { target: { value: '2' } });
  expect(screen.queryByTestId('not-saved')).toBeNull();
  // Emptied again it is not what it was before, in a row or by itself.
  for (const [id, value] of [
    ['packer-ratings.0.ratedBar', '2'],
    ['packer-sizes.minMm', '100'],
  ] as const) {
    fireEvent.input(field(id), { target: { value: '' } });
    expect(said(id)).toBe(NUMBER_FIELD.empty);
    expect(refused()).toBe(true);
    expect(document.activeElement).toBe(field(id));
    fireEvent.input(field(id), { target: { value } });
    expect(said(id)).toBeUndefined();
  }
  expect(asked).not.toContain('put-document');
  fireEvent.click(save);
  await waitFor(() => expect(asked).toContain('put-document'));
});

it('a rating of 18 bar is asked back where it is typed, and the tick that it was read again holds up to it', async () => {
  open('packer');
  await waitFor(() => field('packer-name'));
  const type = (value: string) => fireEvent.input(field('packer-ratings.0.ratedBar'), { target: { value } });
  type('1.8');
  expect(said('packer-ratings.0.ratedBar')).toBeUndefined();
  expect(screen.queryByTestId('packer-plateReadBar')).toBeNull();
  type('18');
  expect(said('packer-ratings.0.ratedBar')).toBe(DOCS.readAgain('18.00\u00a0bar'));
  // It is a question, not a fault of the entry.
  expect(field('packer-ratings.0.ratedBar').getAttribute('aria-invalid')).toBe('false');
  fireEvent.click(screen.getByTestId('packer-plateReadBar'));
  expect(said('packer-ratings.0.ratedBar')).toBeUndefined();
  type('19');
  expect(said('packer-ratings.0.ratedBar')).toBe(DOCS.readAgain('19.00\u00a0bar'));
  expect(screen.getByTestId<HTMLInputElement>('packer-plateReadBar').checked).toBe(false);
});

it('a new resin has no times; a row that is added is empty', async () => {
  open('resin');
  await waitFor(() => field('resin-name'));
  expect(field('resin-mix.resinParts').value).toBe('');
  fireEvent.click(screen.getByTestId('resin-curePoints-add'));
  for (const key of ['c', 'minutes']) {
    expect(field(`resin-curePoints.0.${key}`).value).toBe('');
    expect(said(`resin-curePoints.0.${key}`)).toBeUndefined();
  }
  fireEvent.click(screen.getByTestId('save-document'));
  for (const key of ['c', 'minutes']) expect(said(`resin-curePoints.0.${key}`)).toBe(NUMBER_FIELD.empty);
});
