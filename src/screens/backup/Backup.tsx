import { createResource, createSignal, For, Show } from 'solid-js';
import {
  BACKUP_GROUPS,
  type BackupMade,
  type RestoreChoice,
  type RestoreDone,
  type RestoreSummary,
} from '../../evidence/backup/messages.ts';
import { Part } from '../../widgets/Fields.tsx';
import { FileKey } from '../../widgets/FileKey.tsx';
import { BACKUP as B } from '../../words/backup.ts';
import { progressText } from '../../words/evidence.ts';
import { failed, useServices } from '../context.ts';
import { saveBlob } from '../save.ts';
import { Plan } from './Plan.tsx';

type Work = 'make' | 'look' | 'restore';
const WORK: Readonly<Record<Work, string>> = { make: B.making, look: B.looking, restore: B.going };

/** Everything of this tablet in one file, and back. */
export function Backup() {
  const app = useServices();
  const [busy, setBusy] = createSignal<{ readonly work: Work; readonly share: number } | null>(null);
  const [made, setMade] = createSignal<BackupMade | null>(null);
  const [plan, setPlan] = createSignal<{ readonly file: Blob; readonly summary: RestoreSummary } | null>(
    null,
  );
  const [done, setDone] = createSignal<RestoreDone | null>(null);
  const [filled] = createResource(async () => {
    const jobs = await app.ask({ q: 'documents', kind: 'job' }).catch(failed(app));
    const runs = await app.ask({ q: 'runs' }).catch(failed(app));
    return (jobs?.length ?? 0) + (runs?.length ?? 0) > 0;
  });

  async function work<T>(what: Work, ask: (tell: (share: number) => void) => Promise<T>): Promise<T | null> {
    setBusy({ work: what, share: 0 });
    try {
      return await ask((share) => setBusy({ work: what, share }));
    } catch (error) {
      app.fail(error);
      return null;
    } finally {
      setBusy(null);
    }
  }
  const make = async () => {
    setMade(null);
    const backup = await work('make', (tell) => app.evidence({ q: 'backup' }, tell));
    if (backup === null) return;
    saveBlob(backup.name, backup.file);
    setMade(backup);
  };
  const look = async (file: Blob) => {
    setPlan(null);
    setDone(null);
    const summary = await work('look', (tell) => app.evidence({ q: 'restore-look', file }, tell));
    if (summary !== null) setPlan({ file, summary });
  };
  const restore = async (choice: RestoreChoice) => {
    const { file, summary } = plan()!;
    const { token } = summary;
    const end = await work('restore', (tell) => app.evidence({ q: 'restore', file, token, choice }, tell));
    if (end === null) return;
    setPlan(null);
    setDone(end);
  };

  return (
    <div class="page backup">
      <h1>{B.title}</h1>
      <p class="muted">{B.lead}</p>
      <Part title={B.make} note={B.makeWhat}>
        <Show when={filled() === false}>
          <p class="note" data-testid="backup-empty">
            {B.empty}
          </p>
        </Show>
        <div class="row">
          <button
            type="button"
            class="button"
            classList={{ primary: plan() === null }}
            data-testid="make-backup"
            disabled={busy() !== null || filled() === false}
            onClick={() => void make()}
          >
            {B.make}
          </button>
        </div>
        <Show when={made()}>{(backup) => <Made backup={backup()} />}</Show>
      </Part>
      <Part title={B.restore} note={B.restoreWhat}>
        <Show when={app.live.run() !== null}>
          <p class="note strong">{B.running}</p>
        </Show>
        <div class="row">
          <FileKey
            label={B.choose}
            testId="restore-file"
            accept=".zip,application/zip"
            disabled={busy() !== null}
            onFile={(file) => void look(file)}
          >
            {plan() === null ? B.choose : B.other}
          </FileKey>
        </div>
        <Show when={plan()}>
          {(p) => (
            <Plan
              summary={p().summary}
              busy={busy() !== null || app.live.run() !== null}
              onRestore={(choice) => void restore(choice)}
            />
          )}
        </Show>
        <Show when={done()}>{(d) => <Restored done={d()} />}</Show>
      </Part>
      <Show when={busy()}>
        {(b) => (
          <div class="row" role="status">
            <progress max="1" value={b().share} aria-label={WORK[b().work]} />
            <span data-testid="backup-progress">{progressText(WORK[b().work], b().share)}</span>
            <button
              type="button"
              class="button"
              data-testid="cancel-backup"
              onClick={() => void app.evidence({ q: 'cancel' }).catch(app.fail)}
            >
              {B.cancel}
            </button>
          </div>
        )}
      </Show>
    </div>
  );
}

/** What went into the file, in the rows that its restore will show. */
function Made(props: { backup: BackupMade }) {
  const groups = () => BACKUP_GROUPS.filter((g) => props.backup.groups[g] > 0);
  const left = () => props.backup.leftOut.length;
  return (
    <div class="stack" role="status" data-testid="backup-made">
      <p>
        <strong>{B.made}</strong>
      </p>
      <table class="table">
        <tbody>
          <For each={groups()}>
            {(g) => (
              <tr>
                <th scope="row">{B.groups[g]}</th>
                <td>{props.backup.groups[g]}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <Show when={left() > 0}>
        <p>{B.leftOut(left())}</p>
      </Show>
    </div>
  );
}

function Restored(props: { done: RestoreDone }) {
  const key = () => props.done.key;
  return (
    <div class="stack" role="status" data-testid="restored">
      <p>
        <strong>{B.done(props.done.keptBoth)}</strong>
      </p>
      <Show when={key()} fallback={<p>{B.keyNone}</p>}>
        {(k) => (
          <p data-testid="restored-key">
            {k().made ? B.keyMade : B.keyStays} <code class="fingerprint">{k().fingerprint}</code>
          </p>
        )}
      </Show>
      <div class="row">
        <button type="button" class="button primary" onClick={() => location.reload()}>
          {B.reload}
        </button>
      </div>
    </div>
  );
}
