import { connect, type Socket } from 'node:net';
import { pause } from './hand.ts';

/**
 * Firefox by its own remote protocol (Marionette: a length, a colon, JSON). It reaches the browser's own panels, which no page and no
 * WebDriver BiDi does: the port chooser is one.
 */
export interface Marionette {
  goto(url: string): Promise<void>;
  click(selector: string): Promise<void>;
  /** The value of a script's `return`, in the page or among the browser's own panels. */
  evaluate(script: string, where?: 'content' | 'chrome'): Promise<unknown>;
  close(): void;
}

const CONNECT_MS = 40_000;

async function reached(port: number): Promise<Socket> {
  for (let waited = 0; ; waited += 200) {
    const socket = connect(port, '127.0.0.1');
    const up = await new Promise<boolean>((resolve) => {
      socket.once('connect', () => resolve(true));
      socket.once('error', () => resolve(false));
    });
    if (up) return socket;
    if (waited > CONNECT_MS) throw new Error('Firefox does not answer on its remote port');
    await pause(200);
  }
}

/** Opens a session with the Firefox that listens on this port of loopback. */
export async function openMarionette(port: number): Promise<Marionette> {
  const socket = await reached(port);
  socket.on('error', () => undefined);
  const waiting = new Map<number, (answer: readonly unknown[]) => void>();
  let came = Buffer.alloc(0);
  socket.on('data', (bytes: Buffer) => {
    came = Buffer.concat([came, bytes]);
    for (;;) {
      const colon = came.indexOf(0x3a);
      const end = colon + 1 + Number(came.subarray(0, Math.max(0, colon)));
      if (colon < 0 || came.length < end) return;
      const message = JSON.parse(came.subarray(colon + 1, end).toString()) as unknown;
      came = came.subarray(end);
      if (Array.isArray(message)) waiting.get(message[1] as number)?.(message);
    }
  });
  let last = 0;
  const command = (name: string, parameters: object = {}) =>
    new Promise<{ value?: unknown }>((resolve, reject) => {
      const id = ++last;
      waiting.set(id, ([, , error, result]) => {
        waiting.delete(id);
        if (error !== null) reject(new Error(`${name}: ${JSON.stringify(error).slice(0, 300)}`));
        else resolve(result as { value?: unknown });
      });
      const text = JSON.stringify([0, id, name, parameters]);
      socket.write(`${Buffer.byteLength(text)}:${text}`);
    });
  await command('WebDriver:NewSession', {});
  return {
    async goto(url) {
      await command('WebDriver:Navigate', { url });
    },
    async click(selector) {
      const found = await command('WebDriver:FindElement', { using: 'css selector', value: selector });
      const [id] = Object.values(found.value as Record<string, string>);
      await command('WebDriver:ElementClick', { id });
    },
    async evaluate(script, where = 'content') {
      await command('Marionette:SetContext', { value: where });
      try {
        return (await command('WebDriver:ExecuteScript', { script, args: [] })).value;
      } finally {
        await command('Marionette:SetContext', { value: 'content' });
      }
    },
    close: () => void socket.destroy(),
  };
}
