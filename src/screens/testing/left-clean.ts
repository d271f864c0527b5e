import { cleanup } from '@solidjs/testing-library';
import { afterEach } from 'vitest';

// Component tests share one page a worker: what a test has drawn is gone before the next one looks.
afterEach(() => {
  cleanup();
  document.body.replaceChildren();
});
