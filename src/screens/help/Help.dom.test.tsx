import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { AlarmView } from '../../watch/view.ts';
import { HELP } from '../../words/help.ts';
import { UI } from '../../words/ui.ts';
import { ServicesContext } from '../context.ts';
import { liveBench } from '../live/testing/bench.ts';
import { Help } from './Help.tsx';

afterEach(cleanup);

/** happy-dom has no popover: what the platform does is said to it, as the platform says it. */
function toggle(sheet: HTMLElement, newState: 'open' | 'closed') {
  for (const name of ['beforetoggle', 'toggle'])
    sheet.dispatchEvent(Object.assign(new Event(name), { newState }));
}

const alarm = (part: Partial<AlarmView>): AlarmView =>
  ({
    alarm: 'ceiling',
    occurrence: 1,
    priority: 'urgent',
    state: 'unacknowledged',
    values: {},
    ...part,
  }) as AlarmView;

function show() {
  const bench = liveBench();
  const outer = vi.fn();
  render(() => (
    <ServicesContext.Provider value={bench.services}>
      <div role="tabpanel" tabIndex={-1} onKeyDown={outer}>
        <Help about="supply" of="Proof of the supply" />
      </div>
    </ServicesContext.Provider>
  ));
  const sheet = screen.getByTestId('help-sheet-supply');
  const hidePopover = vi.fn(() => toggle(sheet, 'closed'));
  Object.assign(sheet, { hidePopover });
  return { bench, sheet, hidePopover, outer };
}

describe('help at the place', () => {
  it('is a key with a name that opens the platform’s popover, empty until then', () => {
    const { sheet } = show();
    const key = screen.getByRole('button', { name: UI.helpOn('Proof of the supply') });
    expect(key.getAttribute('popovertarget')).toBe(sheet.id);
    expect(sheet.getAttribute('popover')).toBe('auto');
    expect(sheet.textContent).toBe('');
  });

  it('says its sentences under the name of the thing, and leads the focus to its way out', async () => {
    const { sheet, outer } = show();
    toggle(sheet, 'open');
    await waitFor(() => expect(sheet.textContent).toContain(HELP.supply));
    expect(sheet.textContent).toContain('Proof of the supply');
    const close = screen.getByTestId('help-close-supply');
    expect(document.activeElement).toBe(close);
    expect(close.getAttribute('popovertargetaction')).toBe('hide');
    // Escape is the popover's own: the drawer round it does not hear it.
    fireEvent.keyDown(close, { key: 'Escape' });
    expect(outer).not.toHaveBeenCalled();
    fireEvent.keyDown(close, { key: 'a' });
    expect(outer).toHaveBeenCalledOnce();
    toggle(sheet, 'closed');
    expect(sheet.textContent).toBe('');
  });

  it('closes by itself when an urgent alarm comes, and for no other', async () => {
    const { bench, sheet, hidePopover } = show();
    toggle(sheet, 'open');
    bench.show({ alarms: [alarm({ alarm: 'leaking', priority: 'high' })] });
    bench.show({ alarms: [alarm({ state: 'acknowledged' })] });
    expect(hidePopover).not.toHaveBeenCalled();
    bench.show({ alarms: [alarm({})] });
    expect(hidePopover).toHaveBeenCalledOnce();
    expect(sheet.textContent).toBe('');
  });
});

describe('its words', () => {
  it('are two to four sentences each', () => {
    for (const [code, text] of Object.entries(HELP)) {
      const sentences = text.split(/(?<=[.!?])\s+(?=\p{Lu})/u);
      expect(sentences.length, `${code}: ${text}`).toBeGreaterThanOrEqual(2);
      expect(sentences.length, `${code}: ${text}`).toBeLessThanOrEqual(4);
    }
  });
});
