import { cleanup, fireEvent, render, screen, within } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import {
  BACKUP_GROUPS,
  type BackupKey,
  PLAIN_CHOICE,
  RESTORE_FATES,
  type RestoreChoice,
  type RestoreSummary,
} from '../../evidence/backup/messages.ts';
import { Plan } from './Plan.tsx';

afterEach(cleanup);

const key = (role: BackupKey['role'], digit: string, more: Partial<BackupKey> = {}): BackupKey => ({
  role,
  fingerprint: digit.repeat(64),
  name: role === 'known' ? 'Office tablet' : '',
  sinceUtcMs: role === 'signer' ? null : 1e12,
  seals: 1,
  additions: 0,
  here: false,
  ...more,
});

function show(keys: readonly BackupKey[], fate: 'new' | 'same' = 'new') {
  const counts = Object.fromEntries(
    BACKUP_GROUPS.map((g) => [g, Object.fromEntries(RESTORE_FATES.map((f) => [f, f === fate ? 1 : 0]))]),
  ) as unknown as RestoreSummary['counts'];
  const chosen: RestoreChoice[] = [];
  render(() => (
    <Plan
      busy={false}
      onRestore={(c) => chosen.push(c)}
      summary={{
        token: 't',
        madeUtcMs: 1e12,
        software: 'Steadybar 0.1.0',
        counts,
        lines: [],
        strangeLines: 0,
        leftOut: 0,
        bytes: 1,
        room: 2,
        keyThere: 'a'.repeat(64),
        keys,
        keyHere: false,
      }}
    />
  ));
  return { chosen, go: () => fireEvent.click(screen.getByTestId('restore-go')) };
}

it('the plain way takes runs and seals, and trusts no key', () => {
  const { chosen, go } = show([key('own', 'a'), key('known', 'b'), key('signer', 'c')]);
  go();
  expect(chosen).toEqual([PLAIN_CHOICE]);
});

it('shows every key by all its digits, each with a tick of its own', () => {
  const { chosen, go } = show([
    key('own', 'a'),
    key('own', 'd', { here: true }),
    key('known', 'b'),
    key('signer', 'c'),
  ]);
  for (const digit of ['A', 'B', 'C', 'D'])
    expect(screen.getByTestId('restore-keys').textContent).toContain(`${digit.repeat(4)} `.repeat(16).trim());
  const ticks = within(screen.getByTestId('restore-keys')).getAllByRole('checkbox');
  expect(ticks.map((t) => (t as HTMLInputElement).checked)).toEqual([false, false]);
  fireEvent.click(screen.getByTestId('restore-trust-known'));
  go();
  fireEvent.click(screen.getByTestId('restore-trust-own'));
  fireEvent.click(screen.getByTestId('restore-trust-known'));
  fireEvent.click(screen.getByTestId('restore-take-seals'));
  go();
  expect(chosen).toEqual([
    { ...PLAIN_CHOICE, known: ['b'.repeat(64)] },
    { ...PLAIN_CHOICE, own: ['a'.repeat(64)], seals: false },
  ]);
});

it('where only a key is not here yet, it can still be ticked', () => {
  show([key('own', 'a')], 'same');
  expect(screen.queryByTestId('restore-go')).not.toBeNull();
  cleanup();
  show([key('own', 'a', { here: true }), key('signer', 'c')], 'same');
  expect(screen.queryByTestId('restore-nothing')).not.toBeNull();
});
