import { createRoot } from 'solid-js';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { keepFocusIn } from './keep-focus.ts';

let root: HTMLElement;
let drawer: HTMLElement;
let home: HTMLElement;
let end: () => void;

const key = (parent: HTMLElement): HTMLElement => {
  const button = document.createElement('button');
  parent.append(button);
  return button;
};
const seen = () => new Promise((resolve) => setTimeout(resolve));

beforeEach(() => {
  const section = () => Object.assign(document.createElement('section'), { tabIndex: -1 });
  [root, drawer, home] = [section(), section(), section()];
  root.append(home, drawer);
  document.body.append(root);
  drawer.hidden = true;
  end = createRoot((dispose) => {
    keepFocusIn(root, { drawer: () => drawer, home: () => home });
    return dispose;
  });
});
afterEach(() => {
  end();
  document.body.replaceChildren();
});

it('a key that goes leaves the focus in what is always there', async () => {
  const ack = key(home);
  ack.focus();
  ack.remove();
  await seen();
  expect(document.activeElement).toBe(home);
});

it('one that takes no press while something is under way is left as well', async () => {
  const connect = key(home);
  connect.focus();
  connect.setAttribute('disabled', '');
  await seen();
  expect(document.activeElement).toBe(home);
});

it('out of the drawer one comes back to where it was opened from', async () => {
  const more = key(home);
  more.focus();
  drawer.hidden = false;
  const field = key(drawer);
  field.focus();
  drawer.hidden = true;
  await seen();
  expect(document.activeElement).toBe(more);
});

it('and to the order where that has gone meanwhile', async () => {
  const more = key(home);
  more.focus();
  drawer.hidden = false;
  key(drawer).focus();
  more.remove();
  drawer.hidden = true;
  await seen();
  expect(document.activeElement).toBe(home);
});

it('what goes inside the open drawer leaves the focus in the drawer', async () => {
  drawer.hidden = false;
  const step = key(drawer);
  step.focus();
  step.remove();
  await seen();
  expect(document.activeElement).toBe(drawer);
});

it('what goes beside the open drawer does not send the focus into it', async () => {
  drawer.hidden = false;
  key(drawer).focus();
  const ack = key(home);
  ack.focus();
  ack.remove();
  await seen();
  expect(document.activeElement).toBe(home);
});

it('somebody who went elsewhere is not called back', async () => {
  const ack = key(home);
  const outside = key(document.body);
  ack.focus();
  outside.focus();
  await seen();
  ack.remove();
  await seen();
  expect(document.activeElement).toBe(outside);
  outside.blur();
  key(home).remove();
  await seen();
  expect(document.activeElement).toBe(document.body);
});
