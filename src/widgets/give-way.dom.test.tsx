import { render } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { Dialog } from './Dialog.tsx';
import { dialogsGiveWay } from './give-way.ts';

// jsdom has no modal dialogs: what the platform does with them is looked at in tests/e2e/pages.test.ts.
const { showModal, close } = HTMLDialogElement.prototype;
beforeEach(() => {
  HTMLDialogElement.prototype.showModal = function () {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function () {
    this.open = false;
    this.dispatchEvent(new Event('close'));
  };
});
afterEach(() => {
  HTMLDialogElement.prototype.showModal = showModal;
  HTMLDialogElement.prototype.close = close;
  dialogsGiveWay({ urgent: false, onLive: false });
});

function shown() {
  const [open, setOpen] = createSignal(true);
  const [hidden, setHidden] = createSignal(false);
  const onClose = vi.fn(() => setOpen(false));
  const { container } = render(() => (
    <div hidden={hidden()}>
      <Dialog open={open()} title="Sure?" onClose={onClose}>
        <input value="typed" />
      </Dialog>
    </div>
  ));
  return { dialog: container.querySelector('dialog')!, onClose, setHidden };
}

it('a sheet gives way to an urgent alarm, and comes again with what was typed', () => {
  const { dialog, onClose } = shown();
  expect(dialog.open).toBe(true);
  dialogsGiveWay({ urgent: true, onLive: false });
  expect(dialog.open).toBe(false);
  expect(onClose).not.toHaveBeenCalled();
  dialogsGiveWay({ urgent: false, onLive: false });
  expect(dialog.open).toBe(true);
  expect(dialog.querySelector('input')?.value).toBe('typed');
});

it('one of a page that is kept out of sight takes no press from the live page', () => {
  const { dialog, setHidden } = shown();
  setHidden(true);
  dialogsGiveWay({ urgent: false, onLive: true });
  expect(dialog.open).toBe(false);
  setHidden(false);
  dialogsGiveWay({ urgent: false, onLive: false });
  expect(dialog.open).toBe(true);
});

it('closed by a hand it stays closed', () => {
  const { dialog, onClose } = shown();
  dialog.close();
  expect(onClose).toHaveBeenCalledOnce();
  dialogsGiveWay({ urgent: true, onLive: false });
  dialogsGiveWay({ urgent: false, onLive: false });
  expect(dialog.open).toBe(false);
});
