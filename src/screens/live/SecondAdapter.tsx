import { createMemo, createResource, createSignal, For, Show } from 'solid-js';
import type { Named } from '../../job/bundle.ts';
import type { ReadingMap } from '../../job/reading-map.ts';
import { BESIDE } from '../../words/beside.ts';
import { LINK_STATE } from '../../words/link.ts';
import { useServices } from '../context.ts';
import { loadAll } from '../documents/store.ts';
import { knownDevices } from './known-devices.ts';
import { connectBeside, readBeside } from './second-adapter.ts';

/** Temperatures from another port than the pressure: connected and disconnected for itself, beside a real device alone. */
export function SecondAdapter() {
  const app = useServices();
  const { live } = app;
  const [busy, setBusy] = createSignal(false);
  const first = createMemo(() =>
    live.link()?.kind === 'serial' ? (live.link()?.hello?.deviceId ?? null) : null,
  );
  const beside = () => live.link()?.beside ?? null;
  const [maps] = createResource(first, async (): Promise<readonly Named<ReadingMap>[]> => {
    const all = await Promise.all([loadAll(app, 'registers'), loadAll(app, 'columns')]).catch(() => []);
    return all.flatMap(({ kept }) => kept.map((k) => ({ id: k.id, document: k.document })));
  });
  const [known] = createResource(first, async (id) =>
    (await knownDevices(app)).find((k) => k.besideOf === id),
  );
  const during = (work: () => Promise<unknown>) => {
    if (busy()) return;
    setBusy(true);
    work()
      .catch(app.fail)
      .finally(() => setBusy(false));
  };
  /** The one other port that is there is taken without asking; where that was none, the chooser opens the next time. */
  const [missed, setMissed] = createSignal(false);
  /** Must be called in a press: the chooser opens in it. */
  const connect = (map: ReadingMap | undefined, again: boolean) => {
    const port = known()?.port;
    const ports = again && port !== undefined ? [port] : [];
    const chosen = app.serial.choose(missed(), ports, live.link()?.port ?? null);
    during(async () => {
      const choice = await chosen;
      if (choice === null) return;
      setMissed(true);
      await connectBeside(app, map === undefined ? choice : { ...choice, map });
      setMissed(false);
    });
  };
  /** Connected before the run's Setup could name it, or another one than it names. */
  const isUnread = () => {
    const id = beside()?.hello?.deviceId;
    return live.run() !== null && live.setup() !== null && id !== undefined && live.setup()?.besideId !== id;
  };
  return (
    <Show when={first() !== null && app.serial.supported}>
      <Show
        when={beside()}
        fallback={
          <details data-testid="second-adapter">
            <summary>{BESIDE.title}</summary>
            <div class="stack">
              <p class="small muted">{BESIDE.text}</p>
              <Show when={known()}>
                {(device) => (
                  <>
                    <button
                      type="button"
                      class="button wide"
                      data-testid="beside-known"
                      disabled={busy()}
                      onClick={() => connect(device().port.map, true)}
                    >
                      {BESIDE.known(device().deviceId)}
                    </button>
                    <p class="small muted">{BESIDE.knownText}</p>
                  </>
                )}
              </Show>
              <button
                type="button"
                class="button wide"
                data-testid="beside-device"
                disabled={busy()}
                onClick={() => connect(undefined, false)}
              >
                {BESIDE.device}
              </button>
              <For each={maps() ?? []}>
                {({ id, document }) => (
                  <button
                    type="button"
                    class="button wide"
                    data-testid={`beside-map-${id}`}
                    disabled={busy()}
                    onClick={() => connect(document, false)}
                  >
                    {BESIDE.mapped[document.is](document.name)}
                  </button>
                )}
              </For>
            </div>
          </details>
        }
      >
        {(link) => (
          <div class="stack">
            <p class="small" role="status" data-testid="beside-state" data-state={link().state}>
              {BESIDE.state(link().hello?.deviceId ?? BESIDE.unnamed, LINK_STATE[link().state])}
            </p>
            <Show when={isUnread() ? link().hello : null}>
              {(hello) => (
                <>
                  <p class="note">{BESIDE.unread}</p>
                  <button
                    type="button"
                    class="button wide"
                    data-testid="beside-read"
                    disabled={busy()}
                    onClick={() =>
                      during(() => readBeside(app, { hello: hello(), channels: link().channels }))
                    }
                  >
                    {BESIDE.read}
                  </button>
                </>
              )}
            </Show>
            <button
              type="button"
              class="button quiet"
              data-testid="beside-disconnect"
              disabled={busy()}
              onClick={() => during(() => app.ask({ q: 'disconnect-beside' }))}
            >
              {BESIDE.disconnect}
            </button>
          </div>
        )}
      </Show>
    </Show>
  );
}
