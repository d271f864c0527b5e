import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createRoot } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import { type ChecklistDocument, ownCopy } from '../../job/checklist-document.ts';
import { CHECK } from '../../words/checks.ts';
import { METRIC } from '../../words/format.ts';
import { type Services, ServicesContext } from '../context.ts';
import { ChecklistForm } from './ChecklistForm.tsx';
import { createForm } from './form.ts';

afterEach(cleanup);

function show(first: ChecklistDocument = ownCopy('Our list', CHECK)) {
  const said: { text: string; undo: (() => void) | undefined }[] = [];
  const services = {
    units: () => METRIC,
    say: (text: string, undo?: () => void) => said.push({ text, undo }),
    fail(error: unknown) {
      throw error;
    },
  } as unknown as Services;
  const form = createRoot(() => createForm('checklist', first, () => METRIC));
  render(() => (
    <ServicesContext.Provider value={services}>
      <ChecklistForm form={form} />
    </ServicesContext.Provider>
  ));
  return { form, said, ids: () => form.draft().items.map((i) => i.id) };
}
const hand = (text: string, name = 'list.json') => {
  const input = screen.getByTestId<HTMLInputElement>('list-open-file');
  Object.defineProperty(input, 'files', { value: [new File([text], name)], configurable: true });
  fireEvent.change(input);
};
const told = () => screen.findByTestId('list-file-told').then((e) => e.textContent ?? '');

it('items are put in order by key, and the key that moved one keeps the focus', async () => {
  const { ids } = show();
  expect(screen.getByTestId<HTMLButtonElement>('up-permit').disabled).toBe(true);
  fireEvent.click(screen.getByTestId('down-permit'));
  expect(ids().slice(0, 2)).toEqual(['flow-stopped', 'permit']);
  await waitFor(() => expect(document.activeElement).toBe(screen.getByTestId('down-permit')));
});

it('an item is removed and brought back where it stood', () => {
  const { ids, said } = show();
  const before = ids();
  fireEvent.click(screen.getByTestId('list-remove-camera-before'));
  expect(ids()).not.toContain('camera-before');
  said[0]?.undo?.();
  expect(ids()).toEqual(before);
});

it('a new item is asked for its words, has an id of its own, and is not saved without them', async () => {
  const { form, ids } = show();
  const before = ids();
  fireEvent.click(screen.getByTestId('list-add-let-down'));
  expect(form.draft().items.at(-1)).toMatchObject({ at: 'let-down', text: '', safety: false });
  expect(before).not.toContain(ids().at(-1));
  expect(form.ok()).toBe(false);
  const field = screen.getByTestId<HTMLInputElement>(`checklist-items.${before.length}.text`);
  await waitFor(() => expect(document.activeElement).toBe(field));
  fireEvent.input(field, { target: { value: 'Sample felt' } });
  // The field is the same one after each letter.
  expect(field.isConnected).toBe(true);
  expect(form.ok()).toBe(true);
});

it('with no item left it says so, and begins again with the built-in list', () => {
  const { form, ids } = show({ ...ownCopy('Our list', CHECK), items: [] });
  expect(form.ok()).toBe(false);
  expect(screen.getByTestId('list-empty')).not.toBeNull();
  fireEvent.click(screen.getByTestId('list-begin-again'));
  expect(ids()).toContain('permit');
  expect(screen.queryByTestId('list-empty')).toBeNull();
});

it('a file is taken over without its markup, and can be taken back', async () => {
  const { form, said } = show();
  const before = form.draft();
  const theirs = { ...ownCopy('Theirs', CHECK) };
  hand(
    JSON.stringify({ ...theirs, items: [{ ...theirs.items[0], text: '<b onclick="x()">Fence</b> set up' }] }),
  );
  await waitFor(() => expect(form.draft().name).toBe('Theirs'));
  expect(form.draft().items.map((i) => i.text)).toEqual(['Fence set up']);
  expect(await told()).toContain('were taken out of one text');
  expect(document.querySelector('b')).toBeNull();
  said[0]?.undo?.();
  expect(form.draft()).toEqual(before);
});

it.each([
  ['no JSON at all', 'no list', /Not the kind of value/],
  ['another document', JSON.stringify({ version: 1, is: 'registers' }), /is: Must be one of: checklist/],
  [
    'a list of absurd length',
    JSON.stringify({ ...ownCopy('x', CHECK), items: Array(400).fill({ id: 'a' }) }),
    /Too many rows/,
  ],
  ['a text of absurd length', JSON.stringify({ ...ownCopy('x'.repeat(5000), CHECK) }), /Too long/],
  ['a file of absurd size', ' '.repeat(100_001), /too large/],
])('%s is refused by name, and nothing is changed', async (_, text, why) => {
  const { form } = show();
  const before = form.draft();
  hand(text);
  expect(await told()).toMatch(why);
  expect(await told()).toContain('Nothing here was changed.');
  expect(form.draft()).toBe(before);
});
