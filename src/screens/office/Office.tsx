import { createResource, createSignal, For, onCleanup, Show } from 'solid-js';
import type { FolderLine, FolderList, Waiting } from '../../evidence/office/messages.ts';
import { Part } from '../../widgets/Fields.tsx';
import { EVIDENCE, progressText } from '../../words/evidence.ts';
import { dateTime } from '../../words/format.ts';
import { OFFICE as O } from '../../words/office.ts';
import { UI } from '../../words/ui.ts';
import { failed, useServices } from '../context.ts';
import { Lines } from './Lines.tsx';
import { askAgain, canPick, pickFolder } from './picker.ts';

const faultText = ({ fault }: Waiting): string =>
  fault === null
    ? O.notTried
    : Object.hasOwn(O.faults, fault)
      ? O.faults[fault as keyof typeof O.faults]
      : O.faults.other;

/** The folder that the office shares: what goes there, what waits, what others put there. */
export function Office() {
  const app = useServices();
  const [view, { mutate }] = createResource(() => app.evidence({ q: 'office' }).catch(failed(app)));
  const [busy, setBusy] = createSignal<string | null>(null);
  const [list, setList] = createSignal<FolderList | null>(null);
  const [away, setAway] = createSignal(false);
  let here = true;
  onCleanup(() => {
    here = false;
  });
  const ready = () => view()?.folder != null && view()?.permission === 'granted';

  const reload = () => app.evidence({ q: 'office' }).then(mutate, app.fail);
  async function look(): Promise<void> {
    setBusy(progressText(O.looking, 0));
    setAway(false);
    try {
      setList(await app.evidence({ q: 'office-list' }, (share) => setBusy(progressText(O.looking, share))));
    } catch (error) {
      setList(null);
      if ((error as { code?: unknown }).code === 'missing') setAway(true);
      else app.fail(error);
    } finally {
      setBusy(null);
    }
  }
  async function write(): Promise<void> {
    setBusy(progressText(O.writing, 0));
    try {
      const { written } = await app.evidence({ q: 'office-write' }, (share) =>
        setBusy(progressText(O.writing, share)),
      );
      const beside = written.filter((w) => w.beside).length;
      if (written.length > 0)
        app.say([O.written(written.length), beside > 0 ? O.beside(beside) : ''].join(' ').trim());
    } catch (error) {
      app.fail(error);
    }
    setBusy(null);
    await reload();
  }
  const refresh = async () => {
    if (!ready()) return;
    if ((view()?.waiting.length ?? 0) > 0) await write();
    await look();
  };
  const choose = async () => {
    try {
      const handle = await pickFolder();
      if (handle === null) return;
      setList(null);
      mutate(await app.evidence({ q: 'office-choose', handle }));
      await refresh();
    } catch (error) {
      app.fail(error);
    }
  };
  const allow = async () => {
    const handle = view()?.folder?.handle;
    if (handle === undefined) return;
    await askAgain(handle).catch(app.fail);
    await reload();
    await refresh();
  };
  const forget = () =>
    app.evidence({ q: 'office-forget' }).then((v) => {
      mutate(v);
      setList(null);
      setAway(false);
      app.say(O.forgotten);
    }, app.fail);
  const all = () => {
    setBusy(progressText(O.writing, 0));
    app.evidence({ q: 'office-all' }).then(
      (v) => {
        mutate(v);
        void write();
      },
      (error) => {
        setBusy(null);
        app.fail(error);
      },
    );
  };
  const seen = () => app.evidence({ q: 'office-seen' }).then(() => look(), app.fail);
  const withFile = async (line: FolderLine, keep: boolean) => {
    setBusy(progressText(EVIDENCE.checking, 0));
    try {
      const file = await app.evidence({ q: 'office-file', name: line.name });
      const { sha256 } = await app.evidence({ q: 'verify', file, name: line.name }, (share) =>
        setBusy(progressText(EVIDENCE.checking, share)),
      );
      if (!keep) {
        // Who went on to another page in the meantime is not pulled away from it.
        if (here) app.go({ page: 'record', id: 'opened' });
        return;
      }
      await app.evidence({ q: 'keep-opened', sha256 });
      app.say(O.kept);
      await look();
    } catch (error) {
      app.fail(error);
    } finally {
      setBusy(null);
    }
  };

  return (
    <div class="page office">
      <h1>{O.title}</h1>
      <p class="muted">{O.lead}</p>
      <Show
        when={canPick() || view()?.folder != null}
        fallback={
          <section class="panel stack" data-testid="office-unsupported">
            <p>{O.unsupported}</p>
            <div class="row">
              <a class="button" href="#/verify">
                {O.check}
              </a>
            </div>
          </section>
        }
      >
        <Part title={O.folder}>
          <p data-testid="office-folder">{view()?.folder?.name ?? O.none}</p>
          <Show when={view()?.permission === 'prompt'}>
            <p class="note">{O.asked}</p>
          </Show>
          <Show when={view()?.permission === 'denied'}>
            <p class="note strong">{O.denied}</p>
          </Show>
          <div class="row">
            <Show when={view()?.folder != null && !ready()}>
              <button
                type="button"
                class="button primary"
                data-testid="office-allow"
                onClick={() => void allow()}
              >
                {O.ask}
              </button>
            </Show>
            <Show when={canPick()}>
              <button
                type="button"
                class="button"
                classList={{ primary: view()?.folder == null }}
                data-testid="office-choose"
                disabled={busy() !== null}
                onClick={() => void choose()}
              >
                {view()?.folder == null ? O.choose : O.another}
              </button>
            </Show>
            <Show when={view()?.folder != null}>
              <button
                type="button"
                class="button"
                data-testid="office-forget"
                disabled={busy() !== null}
                onClick={forget}
              >
                {O.forget}
              </button>
            </Show>
          </div>
        </Part>
        <Show when={view()?.folder != null}>
          <Part title={O.waiting}>
            <Show
              when={(view()?.waiting.length ?? 0) > 0}
              fallback={<p data-testid="office-waiting-none">{O.waitingNone}</p>}
            >
              <ul data-testid="office-waiting">
                <For each={view()?.waiting}>
                  {(w) => (
                    <li>
                      <a href={`#/run/${w.runId}`}>{O.run(w.runId.slice(0, 8))}</a>,{' '}
                      {O.since(dateTime(w.sinceUtcMs))}
                      {UI.colon} {faultText(w)}
                    </li>
                  )}
                </For>
              </ul>
            </Show>
            <div class="row">
              <button
                type="button"
                class="button"
                data-testid="office-write"
                disabled={busy() !== null || !ready()}
                onClick={() => void write()}
              >
                {O.write}
              </button>
              <button
                type="button"
                class="button"
                data-testid="office-all"
                disabled={busy() !== null || !ready()}
                onClick={all}
              >
                {O.all}
              </button>
            </div>
          </Part>
          <Part title={O.list}>
            <div class="row">
              <button
                type="button"
                class="button"
                classList={{ primary: ready() && list() === null }}
                data-testid="office-look"
                disabled={busy() !== null || !ready()}
                onClick={() => void refresh()}
              >
                {O.look}
              </button>
              <Show when={list()?.lines.some((l) => l.fresh)}>
                <button
                  type="button"
                  class="button"
                  data-testid="office-seen"
                  disabled={busy() !== null}
                  onClick={seen}
                >
                  {O.seen}
                </button>
              </Show>
            </div>
            <Show when={away()}>
              <p class="note strong" role="alert" data-testid="office-away">
                {O.away}
              </p>
            </Show>
            <Show when={list()}>
              {(l) => (
                <Lines list={l()} busy={busy() !== null} onFile={(line, keep) => void withFile(line, keep)} />
              )}
            </Show>
          </Part>
        </Show>
      </Show>
      <Show when={busy()}>
        <p role="status">{busy()}</p>
      </Show>
    </div>
  );
}
