import { For, Show } from 'solid-js';
import type { BackupKey, RestoreChoice } from '../../evidence/backup/messages.ts';
import { Tick } from '../../widgets/Fields.tsx';
import { BACKUP as B } from '../../words/backup.ts';
import { dateTime } from '../../words/format.ts';
import { Fingerprint } from '../Fingerprint.tsx';

type Trusted = 'own' | 'known';

const roleText = ({ role, name, sinceUtcMs }: BackupKey): string => {
  if (role === 'signer' || sinceUtcMs === null) return B.keyRole.signer;
  const since = dateTime(sinceUtcMs);
  return role === 'own' ? B.keyRole.own(since) : B.keyRole.known(name, since);
};

/** Every key that a backup names, by its fingerprint; none counts here but by its own tick. */
export function KeyChoice(props: {
  keys: readonly BackupKey[];
  chosen: Pick<RestoreChoice, Trusted>;
  onChosen(role: Trusted, fingerprints: readonly string[]): void;
}) {
  const tick = (role: Trusted, fingerprint: string, on: boolean) => {
    const rest = props.chosen[role].filter((f) => f !== fingerprint);
    props.onChosen(role, on ? [...rest, fingerprint] : rest);
  };
  return (
    <section class="stack" data-testid="restore-keys" aria-label={B.keys}>
      <h3>{B.keys}</h3>
      <p class="note strong">{B.keysWhat}</p>
      <ul class="stack">
        <For each={props.keys}>
          {(k) => (
            <li class="stack" data-testid={`restore-key-${k.role}`}>
              <Fingerprint label={roleText(k)} value={k.fingerprint} />
              <Show when={k.seals + k.additions > 0}>
                <p class="muted">{B.keySigned(k.seals, k.additions)}</p>
              </Show>
              <Show when={k.here} fallback={<KeyTick of={k} chosen={props.chosen} onTick={tick} />}>
                <p class="muted">{B.keyHere}</p>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </section>
  );
}

function KeyTick(props: {
  of: BackupKey;
  chosen: Pick<RestoreChoice, Trusted>;
  onTick(role: Trusted, fingerprint: string, on: boolean): void;
}) {
  const role = () => (props.of.role === 'signer' ? null : props.of.role);
  return (
    <Show when={role()}>
      {(r) => (
        <Tick
          label={r() === 'own' ? B.keyTick.own : B.keyTick.known(props.of.name)}
          testId={`restore-trust-${r()}`}
          checked={props.chosen[r()].includes(props.of.fingerprint)}
          onChecked={(on) => props.onTick(r(), props.of.fingerprint, on)}
        />
      )}
    </Show>
  );
}
