/** A hand on the built app in some browser: what every driver of a browser can do. Elements are known by data-testid. */
export interface Hand {
  goto(url: string): Promise<void>;
  /** Waits until one of them is in sight. @returns which */
  see(ids: readonly string[], ms?: number): Promise<string>;
  click(id: string): Promise<void>;
  /** Presses it for longer than a key that is to be held asks. */
  hold(id: string): Promise<void>;
  text(id: string): Promise<string>;
  attribute(id: string, name: string): Promise<string | null>;
  /** Gives a file to a file field. */
  give(id: string, file: string): Promise<void>;
  /** Evaluates the text of an expression in the page. */
  evaluate(expression: string): Promise<unknown>;
  /** Errors that the page threw or logged; null: this driver is not told of them. */
  faults(): readonly string[] | null;
  close(): Promise<void>;
}

export const byId = (id: string): string => `[data-testid="${id}"]`;

export const pause = (ms: number) => new Promise<void>((go) => setTimeout(go, ms));

/** Waits until a look says yes. @throws Error naming what was waited for */
export async function wait(what: string, look: () => Promise<boolean>, ms = 20_000): Promise<void> {
  for (const until = performance.now() + ms; ; await pause(100)) {
    if (await look().catch(() => false)) return;
    if (performance.now() > until) throw new Error(`${what}: not so after ${ms / 1000} s`);
  }
}

/** Text of an expression: an element with that id is laid out and in the window's own colours or not at all. */
export const isSeen = (id: string): string =>
  `(() => { const e = document.querySelector(${JSON.stringify(byId(id))}); return e !== null && e.getClientRects().length > 0; })()`;

/** Text of an expression: a canvas of that element carries a drawing. */
export const isDrawn = (id: string): string => `(() => {
  const canvas = document.querySelector(${JSON.stringify(`${byId(id)} canvas`)});
  if (canvas === null || canvas.width === 0) return false;
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  let inked = 0;
  for (let i = 3; i < data.length; i += 16) if (data[i] > 0) inked++;
  return inked > 200;
})()`;

/** Waits until one of the elements is in sight, in whatever browser evaluates. @returns which */
export const seeing =
  (evaluate: Hand['evaluate']): Hand['see'] =>
  async (ids, ms) => {
    let found = '';
    const look = async () => {
      for (const id of ids) if (await evaluate(isSeen(id))) found = id;
      return found !== '';
    };
    await wait(ids.join(' or '), look, ms);
    return found;
  };
