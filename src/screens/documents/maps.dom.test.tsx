import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createRoot } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import type { TestRead } from '../../engine/messages.ts';
import { blankRegister } from '../../job/reading-map.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import { METRIC } from '../../words/format.ts';
import { LINK_STATE } from '../../words/link.ts';
import { MAPS } from '../../words/maps.ts';
import { type Services, ServicesContext } from '../context.ts';
import { ColumnMapForm } from './ColumnMapForm.tsx';
import { createForm } from './form.ts';
import { RegisterMapForm } from './RegisterMapForm.tsx';

afterEach(cleanup);

const LOOKED = { value: null, doubt: null, sent: null, orders: [] };

function show(kind: 'registers' | 'columns', found: Partial<TestRead> = {}, supported = true) {
  const asked: { q: string; port?: { map?: unknown } }[] = [];
  const services = {
    units: () => METRIC,
    serial: { supported, choose: async () => ({ kind: 'serial', index: 0 }) },
    fail() {},
    async ask(request: { q: string }) {
      asked.push(request);
      return { trouble: null, line: null, channels: [], cells: [], ...found };
    },
  } as unknown as Services;
  const registers = createRoot(() => createForm('registers', busMap(), () => METRIC));
  const columns = createRoot(() => createForm('columns', lineMap(), () => METRIC));
  render(() => (
    <ServicesContext.Provider value={services}>
      {kind === 'registers' ? <RegisterMapForm form={registers} /> : <ColumnMapForm form={columns} />}
    </ServicesContext.Provider>
  ));
  return { asked, registers, columns };
}

const test = () => fireEvent.click(screen.getByTestId('map-test'));

describe('the editor of a register map', () => {
  it('says what the bus carries beside what is asked for', () => {
    const { registers } = show('registers');
    expect(screen.getByTestId('map-pace').textContent).toMatch(/^20 readings a second are asked for/);
    registers.write('baud', 9600);
    registers.write('channels.0.everyMs', 10);
    expect(screen.getByTestId('map-pace').textContent).toContain('more than the bus carries');
  });

  it('a register as a data sheet prints it is asked back, and stands all the same', () => {
    const { registers } = show('registers');
    expect(document.body.textContent).not.toContain('As a data sheet prints it?');
    registers.write('channels.0.register', 40_010);
    expect(document.body.textContent).toContain('Its 40010 is register 9 of function 3.');
    registers.write('channels.0.register', 30_001);
    expect(document.body.textContent).toContain('Its 30001 is register 0 of function 4.');
    expect(registers.ok()).toBe(true);
  });

  it('two values in the same registers: said at the rows, and no trial reading', () => {
    const { registers } = show('registers');
    registers.write('channels', [blankRegister('pressure'), { ...blankRegister('pressure'), register: 1 }]);
    expect(screen.getByTestId('registers-rows-wrong').textContent).toContain('same registers');
    expect(screen.getByTestId<HTMLButtonElement>('map-test').disabled).toBe(true);
  });

  it('a trial reading tells a wrong byte order and takes the right one', async () => {
    const { registers, asked } = show('registers', {
      channels: [
        {
          ...LOOKED,
          doubt: 'no-number',
          sent: 2e-41,
          orders: [
            { order: 'cdab', value: 1.25, fits: true },
            { order: 'dcba', value: null, fits: false },
          ],
        },
        { ...LOOKED, value: 20.5 },
      ],
    });
    test();
    await waitFor(() => screen.getByTestId('map-test-0'));
    expect(screen.getByTestId('map-test-0').textContent).toContain('no number of an instrument');
    expect(screen.getByTestId('map-test-1').textContent).toContain('20.5');
    expect(screen.queryByTestId('use-order-dcba')).toBeNull();
    fireEvent.click(screen.getByTestId('use-order-cdab'));
    expect(registers.draft().channels[0]!.order).toBe('cdab');
    expect(asked[0]).toMatchObject({ q: 'test-read', port: { map: { is: 'registers' } } });
  });

  it('a trial needs no name yet, and a port: what is lacking is said', async () => {
    const { registers, asked } = show('registers');
    registers.write('name', '');
    expect(registers.ok()).toBe(false);
    expect(screen.queryByTestId('map-test-not')).toBeNull();
    test();
    await waitFor(() => expect(asked.length).toBe(1));
    registers.write('channels.0.scale', 0);
    expect(screen.getByTestId('map-test-not').textContent).toBe(MAPS.testWrong);
    cleanup();
    show('registers', {}, false);
    expect(screen.getByTestId<HTMLButtonElement>('map-test').disabled).toBe(true);
    expect(screen.getByTestId('map-test-not').textContent).toBe(LINK_STATE.unsupported);
  });

  it('nobody answers: what to do is said', async () => {
    show('registers', { trouble: 'no-unit' });
    test();
    await waitFor(() => screen.getByTestId('map-test-found'));
    expect(screen.getByTestId('map-test-found').textContent).toContain('No unit answers');
  });

  it('a file that is no map is refused with a sentence, and what stands is kept', async () => {
    const { registers } = show('registers');
    const give = (text: string) =>
      fireEvent.change(screen.getByTestId('map-open-file'), { target: { files: [new File([text], 'x')] } });
    give(JSON.stringify({ ...busMap(), baud: 1234 }));
    await waitFor(() => screen.getByTestId('map-file-told'));
    expect(screen.getByTestId('map-file-told').textContent).toContain('baud: Must be one of');
    expect(registers.draft()).toEqual(busMap());
    give(JSON.stringify({ ...busMap(), name: 'Another' }));
    await waitFor(() => expect(registers.draft().name).toBe('Another'));
  });
});

describe('the editor of a column map', () => {
  it('shows what a line is made of; each piece can be taken for a value', async () => {
    const { columns } = show('columns', {
      trouble: 'no-columns',
      cells: [
        { key: 'n', value: 7, text: '7' },
        { key: 'p', value: 1.25, text: '1.25bar' },
        { key: 't', value: null, text: 'ERR' },
      ],
    });
    test();
    await waitFor(() => screen.getByTestId('map-cells'));
    expect(screen.getByTestId<HTMLButtonElement>('use-cell-2-0').disabled).toBe(true);
    fireEvent.click(screen.getByTestId('use-cell-1-0'));
    expect(columns.draft().channels[0]).toMatchObject({ key: 'p', column: null });
  });

  it('of a line without names the number of columns is taken over', async () => {
    const { columns } = show('columns', {
      cells: [1, 2, 3].map((value) => ({ key: '', value, text: String(value) })),
    });
    test();
    await waitFor(() => screen.getByTestId('map-take-cells'));
    fireEvent.click(screen.getByTestId('map-take-cells'));
    expect(columns.draft().cells).toBe(3);
    fireEvent.click(screen.getByTestId('use-cell-2-0'));
    expect(columns.draft().channels[0]).toMatchObject({ key: '', column: 3 });
  });
});
