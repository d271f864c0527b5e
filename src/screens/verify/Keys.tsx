import { createResource, createSignal, For, Show } from 'solid-js';
import { Confirm } from '../../widgets/Dialog.tsx';
import { Part, TextField } from '../../widgets/Fields.tsx';
import { EVIDENCE as E } from '../../words/evidence.ts';
import { dateTime } from '../../words/format.ts';
import { failed, useServices } from '../context.ts';
import { Fingerprint } from '../Fingerprint.tsx';
import { KeyTermForm } from './KeyTermForm.tsx';

/** The tablet's own key, what became of the earlier ones, and the keys that the firm knows. */
export function Keys() {
  const app = useServices();
  const [key, { mutate }] = createResource(() => app.evidence({ q: 'key' }).catch(failed(app)));
  const [known, { mutate: setKnown }] = createResource(() =>
    app.evidence({ q: 'signers' }).catch(failed(app)),
  );
  const [changing, setChanging] = createSignal(false);
  const [fingerprint, setFingerprint] = createSignal('');
  const [name, setName] = createSignal('');
  const bad = () =>
    fingerprint().trim() !== '' &&
    !/^[0-9a-f]{64}$/.test(
      fingerprint()
        .replace(/[\s:-]/g, '')
        .toLowerCase(),
    );
  const change = () => {
    setChanging(false);
    app.evidence({ q: 'change-key' }).then(mutate, app.fail);
  };
  const know = () =>
    app.evidence({ q: 'know-signer', fingerprint: fingerprint(), name: name() }).then((list) => {
      setKnown(list);
      setFingerprint('');
      setName('');
    }, app.fail);
  return (
    <>
      <Part title={E.keyTitle}>
        <Show when={key()}>
          {(k) => (
            <div class="stack" data-testid="key" data-state={k().state}>
              <p>{k().state === 'none' ? E.keyNone : k().state === 'lost' ? E.keyLost : E.keyReady}</p>
              <Show when={k().key}>
                {(line) => (
                  <Fingerprint
                    label={E.fingerprintSince(dateTime(line().sinceUtcMs))}
                    value={line().fingerprint}
                    testId="key-fingerprint"
                  />
                )}
              </Show>
              <Show when={k().history.length > 1}>
                <h3>{E.keyBefore}</h3>
                <ul class="dots">
                  <For each={k().history.slice(1)}>
                    {(line) => (
                      <li>
                        <Fingerprint
                          label={line.previous?.reason === 'changed' ? E.changed : E.lost}
                          value={line.previous?.fingerprint ?? ''}
                        />
                      </li>
                    )}
                  </For>
                </ul>
              </Show>
              <Show when={k().state === 'ready'}>
                <div class="row">
                  <button
                    type="button"
                    class="button"
                    data-testid="change-key"
                    onClick={() => setChanging(true)}
                  >
                    {E.keyChange}
                  </button>
                </div>
              </Show>
            </div>
          )}
        </Show>
        <Confirm
          open={changing()}
          title={E.keyChangeAsk}
          text={E.keyChangeText}
          yes={E.keyChange}
          onYes={change}
          onNo={() => setChanging(false)}
        />
      </Part>
      <Part title={E.knownTitle} note={E.knownText}>
        <Show when={(known()?.length ?? 0) > 0} fallback={<p class="muted">{E.knownNone}</p>}>
          <ul class="stack" data-testid="known-keys">
            <For each={known()}>
              {(k) => (
                <li class="row key-row">
                  <div class="grow">
                    <Fingerprint label={E.knownSince(k.name, dateTime(k.addedUtcMs))} value={k.fingerprint} />
                  </div>
                  <KeyTermForm of={k} onChanged={setKnown} />
                  <button
                    type="button"
                    class="button quiet"
                    onClick={() =>
                      app
                        .evidence({ q: 'forget-signer', fingerprint: k.fingerprint })
                        .then(setKnown, app.fail)
                    }
                  >
                    {E.forget}
                  </button>
                </li>
              )}
            </For>
          </ul>
        </Show>
        <div class="fields">
          <TextField
            label={E.fingerprint}
            testId="known-fingerprint"
            value={fingerprint()}
            issue={bad() ? E.badFingerprint : null}
            onValue={setFingerprint}
          />
          <TextField label={E.owner} testId="known-name" value={name()} onValue={setName} />
        </div>
        <div class="row">
          <button
            type="button"
            class="button"
            data-testid="add-known"
            disabled={bad() || fingerprint().trim() === '' || name().trim() === ''}
            onClick={() => void know()}
          >
            {E.know}
          </button>
          <a class="button quiet" href="#/verify">
            {E.verifyTitle}
          </a>
        </div>
      </Part>
    </>
  );
}
