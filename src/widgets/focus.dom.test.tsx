import { afterEach, describe, expect, it } from 'vitest';
import { keepFocus } from './focus.ts';

afterEach(() => document.body.replaceChildren());

describe('focus of a button that is taken away', () => {
  it('goes to the panel it stood in, and is never taken from another place', () => {
    const home = document.createElement('section');
    home.tabIndex = -1;
    const button = document.createElement('button');
    const other = document.createElement('input');
    home.append(button);
    document.body.append(home, other);
    button.focus();
    button.remove();
    keepFocus(home);
    expect(document.activeElement).toBe(home);
    other.focus();
    keepFocus(home);
    expect(document.activeElement).toBe(other);
  });

  it('does nothing for a panel that is gone itself', () => {
    const home = document.createElement('section');
    home.tabIndex = -1;
    keepFocus(home);
    expect(document.activeElement).toBe(document.body);
  });
});
