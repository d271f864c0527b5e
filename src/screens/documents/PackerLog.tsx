import { createSignal, For } from 'solid-js';
import { textAt } from '../../job/documents.ts';
import type { ConditionEntry } from '../../job/packer-document.ts';
import { withEntries } from '../../plan/packer-history.ts';
import { Choice, optionsOf, Part, TextField } from '../../widgets/Fields.tsx';
import { DOCS, PACKER } from '../../words/docs.ts';
import { CONDITION } from '../../words/fields.ts';
import type { Form } from './form.ts';

const SHOWN = 20;

/** Inspections, damage, repairs: a packer retires on damage or on a trend, not on a guess. */
export function PackerLog(props: { form: Form<'packer'> }) {
  const [what, setWhat] = createSignal<ConditionEntry['what']>('inspected');
  const [note, setNote] = createSignal('');
  const add = () => {
    const entry: ConditionEntry = {
      date: new Date().toISOString().slice(0, 10),
      what: what(),
      peakBar: null,
      leakMbarPerMin: null,
      minutes: null,
      by: '',
      note: note().slice(0, textAt('packer', 'conditions.0.note').most),
    };
    const { conditions, earlierCycles } = withEntries(props.form.draft(), [entry]);
    props.form.change({ conditions, earlierCycles });
    setNote('');
  };
  return (
    <Part title={PACKER.conditions} folded>
      <table class="table">
        <tbody>
          <For each={props.form.draft().conditions.slice(-SHOWN).reverse()}>
            {(e) => (
              <tr>
                <th scope="row">{e.date}</th>
                <td>{CONDITION[e.what]}</td>
                <td>{e.note}</td>
              </tr>
            )}
          </For>
        </tbody>
      </table>
      <div class="fields">
        <Choice label={DOCS.logWhat} value={what()} options={optionsOf(CONDITION)} onValue={setWhat} />
        <TextField label={DOCS.logNote} value={note()} onValue={setNote} />
      </div>
      <button type="button" class="button" onClick={add}>
        {DOCS.logAdd}
      </button>
    </Part>
  );
}
