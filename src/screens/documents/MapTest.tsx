import { createMemo, createSignal, For, type JSX, Show } from 'solid-js';
import type { TestRead } from '../../engine/messages.ts';
import { mainQuantity, type Quantity } from '../../job/codes.ts';
import { parseReadingMap } from '../../job/documents.ts';
import { Part } from '../../widgets/Fields.tsx';
import { pressure, temperature } from '../../words/format.ts';
import { LAST_LINE, LINK_ERROR, LINK_STATE } from '../../words/link.ts';
import { MAPS, WORD_ORDER } from '../../words/maps.ts';
import { doubtText } from '../../words/sources.ts';
import { useServices } from '../context.ts';
import type { Form } from './form.ts';

/** Reads once by what stands in the form, and shows each value beside what the other byte orders would give. */
export function MapTest(props: { readonly form: Form<'registers'> | Form<'columns'> }): JSX.Element {
  const app = useServices();
  const [busy, setBusy] = createSignal(false);
  const [found, setFound] = createSignal<TestRead | null>(null);
  const told = (row: number, value: number): string => {
    const quantity: Quantity = props.form.draft().channels[row]?.quantity ?? 'pressure';
    return quantity === 'pressure' ? pressure(value, app.units()) : temperature(value, app.units());
  };
  /** A map has a name before it is kept; a trial needs none. */
  const tried = createMemo(() => {
    const draft = props.form.draft();
    return parseReadingMap(draft.name.trim() === '' ? { ...draft, name: MAPS.test } : draft);
  });
  const read = () => {
    const parsed = tried();
    if (!parsed.ok || busy()) return;
    // The chooser must open in the press itself.
    const chosen = app.serial.choose(false);
    setBusy(true);
    setFound(null);
    (async () => {
      const port = await chosen;
      if (port?.kind !== 'serial') return;
      setFound(await app.ask({ q: 'test-read', port: { ...port, map: parsed.value } }));
    })()
      .catch(app.fail)
      .finally(() => setBusy(false));
  };
  const write = (path: string, value: unknown) => props.form.write(path, value);
  return (
    <Part title={MAPS.test} note={MAPS.testText}>
      <div class="row">
        <button
          type="button"
          class="button"
          data-testid="map-test"
          disabled={busy() || !tried().ok || !app.serial.supported}
          onClick={read}
        >
          {busy() ? MAPS.testing : MAPS.testNow}
        </button>
        <Show when={!app.serial.supported || !tried().ok}>
          <p class="small muted grow" data-testid="map-test-not">
            {app.serial.supported ? MAPS.testWrong : LINK_STATE.unsupported}
          </p>
        </Show>
      </div>
      <Show when={mainQuantity(props.form.draft()) === 'temperature'}>
        <p class="note" data-testid="map-no-pressure">
          {MAPS.noPressure}
        </p>
      </Show>
      <Show when={found()}>
        {(f) => (
          <div class="stack" role="status" data-testid="map-test-found">
            <Show when={f().trouble}>
              {(why) => (
                <p class="note strong">
                  <strong>{LINK_ERROR[why()].title}.</strong> {LINK_ERROR[why()].todo}
                  <Show when={f().line}>
                    {(line) => (
                      <>
                        {' '}
                        {LAST_LINE} <code class="stray-line">{line()}</code>
                      </>
                    )}
                  </Show>
                </p>
              )}
            </Show>
            <For each={f().channels}>
              {(c, row) => (
                <Show when={c.value !== null || c.doubt !== null}>
                  <section class="stack" data-testid={`map-test-${row()}`}>
                    <strong>
                      {c.value === null
                        ? MAPS.noValue(row() + 1)
                        : MAPS.value(row() + 1, told(row(), c.value))}
                    </strong>
                    <Show when={c.doubt}>
                      {(code) => <p class="note">{doubtText(row() + 1, code(), c.sent)}</p>}
                    </Show>
                    <Show when={c.doubt === 'no-number' || c.doubt === 'outside'}>
                      <For each={c.orders}>
                        {(o) => (
                          <div class="row">
                            <span class="grow">
                              {o.value === null
                                ? MAPS.orderNone(WORD_ORDER[o.order])
                                : MAPS.orderValue(WORD_ORDER[o.order], told(row(), o.value))}
                              <Show when={o.fits}> ({MAPS.fits})</Show>
                            </span>
                            <Show when={o.fits}>
                              <button
                                type="button"
                                class="button"
                                data-testid={`use-order-${o.order}`}
                                onClick={() => write(`channels.${row()}.order`, o.order)}
                              >
                                {MAPS.useOrder}
                              </button>
                            </Show>
                          </div>
                        )}
                      </For>
                    </Show>
                  </section>
                </Show>
              )}
            </For>
            <Show when={f().cells.length > 0}>
              <Cells form={props.form as Form<'columns'>} cells={f().cells} />
            </Show>
          </div>
        )}
      </Show>
    </Part>
  );
}

/** What the newest line is made of, each piece to be taken for one of the values. */
function Cells(props: { readonly form: Form<'columns'>; readonly cells: TestRead['cells'] }): JSX.Element {
  const rows = () => props.form.draft().channels;
  const isNamed = () => props.cells.some((c) => c.key !== '');
  const take = (row: number, cell: number) => {
    const { key } = props.cells[cell]!;
    props.form.write(
      'channels',
      rows().map((c, i) => (i === row ? { ...c, key, column: key === '' ? cell + 1 : null } : c)),
    );
  };
  return (
    <section class="stack" data-testid="map-cells">
      <p>{MAPS.cells(props.cells.length)}</p>
      <Show when={!isNamed() && props.form.draft().cells !== props.cells.length}>
        <button
          type="button"
          class="button"
          data-testid="map-take-cells"
          onClick={() => props.form.write('cells', props.cells.length)}
        >
          {MAPS.takeCells(props.cells.length)}
        </button>
      </Show>
      <For each={props.cells}>
        {(cell, at) => (
          <div class="row">
            <code class="stray-line grow">{cell.key === '' ? cell.text : `${cell.key}=${cell.text}`}</code>
            <For each={rows()}>
              {(_, row) => (
                <button
                  type="button"
                  class="button"
                  data-testid={`use-cell-${at()}-${row()}`}
                  disabled={cell.value === null}
                  onClick={() => take(row(), at())}
                >
                  {MAPS.useCell(row() + 1)}
                </button>
              )}
            </For>
          </div>
        )}
      </For>
    </section>
  );
}
