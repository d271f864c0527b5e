import { For, Show } from 'solid-js';
import { createStore, unwrap } from 'solid-js/store';
import {
  type BackupGroup,
  PLAIN_CHOICE,
  type RefusedWhy,
  type RestoreChoice,
  type RestoreFate,
  type RestoreSummary,
} from '../../evidence/backup/messages.ts';
import { Choice, optionsOf, Tick } from '../../widgets/Fields.tsx';
import { BACKUP as B } from '../../words/backup.ts';
import { bytes, dateTime, NO_VALUE } from '../../words/format.ts';
import { UI } from '../../words/ui.ts';
import { KeyChoice } from './KeyChoice.tsx';

// Each code has its words: this is checked here.
const GROUPS: Readonly<Record<BackupGroup, string>> = B.groups;
const FATES: Readonly<Record<RestoreFate, string>> = B.fates;
const WHY: Readonly<Record<RefusedWhy, string>> = B.why;
const GROUP_ORDER = Object.keys(GROUPS) as BackupGroup[];
const FATE_ORDER = Object.keys(FATES) as RestoreFate[];

interface TakeTick {
  readonly key: 'runs' | 'seals' | 'additions' | 'decisions';
  readonly label: string;
  /** Asked where the backup has some of these. */
  readonly group: BackupGroup;
  readonly fates: readonly RestoreFate[];
}
const TICKS: readonly TakeTick[] = [
  { key: 'runs', label: B.takeRuns, group: 'run', fates: ['new', 'differs'] },
  { key: 'seals', label: B.takeSeals, group: 'seal', fates: ['new', 'differs'] },
  { key: 'additions', label: B.takeAdditions, group: 'addition', fates: ['new', 'grows', 'differs'] },
  { key: 'decisions', label: B.takeDecisions, group: 'review', fates: ['grows'] },
];

/** What restoring would do, and the choice about what differs, before anything is written. */
export function Plan(props: {
  summary: RestoreSummary;
  busy: boolean;
  onRestore(choice: RestoreChoice): void;
}) {
  const s = () => props.summary;
  // A store writes into what it was given.
  const [choice, setChoice] = createStore<RestoreChoice>({ ...PLAIN_CHOICE });
  const some = (g: BackupGroup, ...of: readonly RestoreFate[]) => of.some((f) => s().counts[g][f] > 0);
  const count = (fate: RestoreFate) => GROUP_ORDER.reduce((n, g) => n + s().counts[g][fate], 0);
  // Only what there is: eight rows of dashes tell nothing on a phone.
  const groups = () => GROUP_ORDER.filter((g) => FATE_ORDER.some((f) => s().counts[g][f] > 0));
  const fates = () => FATE_ORDER.filter((f) => count(f) > 0);
  const settingsDiffer = () => s().counts.settings.differs > 0;
  const differ = () => count('differs') - s().counts.settings.differs > 0;
  const freshKeys = () => s().keys.some((k) => k.role !== 'signer' && !k.here);
  const nothing = () => count('new') + count('grows') + count('differs') === 0 && !freshKeys();
  const takes = () => TICKS.filter((t) => some(t.group, ...t.fates));
  const noRoom = () => s().room !== null && s().bytes > s().room!;
  return (
    <section class="stack" data-testid="restore-plan" aria-label={B.summary}>
      <p>
        {B.madeBy(dateTime(s().madeUtcMs), s().software)}{' '}
        {s().room === null ? B.writes(bytes(s().bytes)) : B.writesInto(bytes(s().bytes), bytes(s().room))}
      </p>
      <div class="wide">
        <table class="table">
          <thead>
            <tr>
              <th scope="col">{B.group}</th>
              <For each={fates()}>{(f) => <th scope="col">{FATES[f]}</th>}</For>
            </tr>
          </thead>
          <tbody>
            <For each={groups()}>
              {(g) => (
                <tr>
                  <th scope="row">{GROUPS[g]}</th>
                  <For each={fates()}>
                    {(f) => <td data-testid={`restore-${g}-${f}`}>{s().counts[g][f] || NO_VALUE}</td>}
                  </For>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </div>
      <Show when={s().lines.length > 0}>
        <ul>
          <For each={s().lines}>
            {(l) => (
              <li>
                {GROUPS[l.group]}
                {UI.colon} {l.title === '' ? B.untitled(l.id) : l.title},{' '}
                {l.why === null ? FATES[l.fate] : `${FATES.refused}${UI.colon} ${WHY[l.why]}`}
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={s().strangeLines > 0}>
        <p class="note">{B.strange(s().strangeLines)}</p>
      </Show>
      <Show when={s().leftOut > 0}>
        <p class="note">{B.leftOutThere(s().leftOut)}</p>
      </Show>
      <Show when={differ()}>
        <Choice
          label={B.differing}
          testId="restore-differing"
          value={choice.differing}
          options={optionsOf<RestoreChoice['differing']>(B.choices)}
          onValue={(differing) => setChoice({ differing })}
        />
      </Show>
      <Show when={settingsDiffer()}>
        <Tick
          label={B.takeSettings}
          checked={choice.settings}
          onChecked={(settings) => setChoice({ settings })}
        />
      </Show>
      <Show when={takes().length > 0}>
        <fieldset class="stack">
          <legend>{B.take}</legend>
          <For each={takes()}>
            {(t) => (
              <Tick
                label={t.label}
                testId={`restore-take-${t.key}`}
                checked={choice[t.key]}
                onChecked={(on) => setChoice({ [t.key]: on })}
              />
            )}
          </For>
        </fieldset>
      </Show>
      <Show when={s().keys.length > 0}>
        <KeyChoice
          keys={s().keys}
          chosen={choice}
          onChosen={(role, fingerprints) => setChoice({ [role]: fingerprints })}
        />
      </Show>
      <p class="note">{s().keyHere ? B.keyStays : B.keyNew}</p>
      <Show when={noRoom()}>
        <p class="note strong">{B.noRoom}</p>
      </Show>
      <Show when={!nothing()} fallback={<p data-testid="restore-nothing">{B.nothing}</p>}>
        <div class="row">
          <button
            type="button"
            class="button primary"
            data-testid="restore-go"
            disabled={props.busy || noRoom()}
            onClick={() => props.onRestore(structuredClone(unwrap(choice)))}
          >
            {B.go}
          </button>
        </div>
      </Show>
    </section>
  );
}
