import { render, screen } from '@solidjs/testing-library';
import { expect, it } from 'vitest';
import type { TraceWindow } from '../engine/messages.ts';
import { Legend } from './Legend.tsx';

it('lines that are named alike are numbered, in the order of their channels', () => {
  const series = [
    { name: 'bar', channel: 0, place: null },
    { name: 'temperature', channel: 2, place: 'sleeve' },
    { name: 'temperature', channel: 3, place: 'air' },
    { name: 'temperature', channel: 7, place: 'sleeve' },
  ] as unknown as TraceWindow['series'];
  render(() => <Legend series={series} />);
  expect(screen.getAllByRole('listitem').map((li) => li.textContent?.trim())).toEqual([
    'Pressure',
    'Sleeve 1',
    'Air in the packer',
    'Sleeve 2',
  ]);
});
