import { For } from 'solid-js';
import { CHECKS } from '../../job/checklist.ts';
import { Tick } from '../../widgets/Fields.tsx';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';
import { CHECK } from '../../words/checks.ts';
import { SHEET } from '../../words/sheet.ts';
import type { Form } from '../documents/form.ts';

/** What is looked at before mixing, and the cautions that belong to the sheet. */
export function Checks(props: { form: Form<'job'> }) {
  const d = () => props.form.draft();
  return (
    <>
      <div class="checks">
        <For each={CHECKS}>
          {(code) => (
            <Tick
              label={CHECK[code]}
              checked={d().checks.includes(code)}
              onChecked={(on) =>
                props.form.change({
                  checks: on ? [...d().checks, code] : d().checks.filter((c) => c !== code),
                })
              }
              testId={`check-${code}`}
            />
          )}
        </For>
      </div>
      <h3>{SHEET.partCautions}</h3>
      <ul class="cautions small">
        <For each={CAUTIONS_AT.sheet}>{(c) => <li>{CAUTION[c]}</li>}</For>
      </ul>
    </>
  );
}
