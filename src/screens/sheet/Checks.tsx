import { createResource, For, Show } from 'solid-js';
import { linesOf, withAnswer, withoutAnswer } from '../../job/check-answers.ts';
import { MOMENTS, type Moment } from '../../job/checklist.ts';
import { builtInChecklist, type KeptChecklist } from '../../job/checklist-document.ts';
import { Choice } from '../../widgets/Fields.tsx';
import { CAUTION, CAUTIONS_AT } from '../../words/cautions.ts';
import { itemName, LIST } from '../../words/checks.ts';
import { dateTime } from '../../words/format.ts';
import { SHEET } from '../../words/sheet.ts';
import { UI } from '../../words/ui.ts';
import { ChecklistRows } from '../checklist/ChecklistRows.tsx';
import { listsInUse, sameList } from '../checklist/in-use.ts';
import { answering, Who } from '../checklist/Who.tsx';
import { failed, useServices } from '../context.ts';
import type { Form } from '../documents/form.ts';

/** What is looked at, moment by moment, with its answers; and the cautions that belong to the sheet. */
export function Checks(props: { form: Form<'job'>; moments?: readonly Moment[] }) {
  const app = useServices();
  const d = () => props.form.draft();
  const who = answering(app);
  const moments = () => props.moments ?? MOMENTS;
  const others = () => linesOf(d().checklist, d().answers).filter((l) => l.at === null);
  return (
    <>
      <Show when={moments().includes('mixing')}>
        <WhichList form={props.form} />
      </Show>
      <Who app={app} hint />
      <ChecklistRows
        list={d().checklist}
        answers={d().answers}
        moments={moments()}
        onSay={(item, how, text) =>
          props.form.change({
            answers: [
              ...(how === 'taken-back'
                ? withoutAnswer(d().answers, item.id)
                : withAnswer(d().answers, {
                    item: item.id,
                    how,
                    text,
                    atUtcMs: app.nowMs(),
                    by: who(),
                  })),
            ],
          })
        }
      />
      <Show when={props.moments === undefined && others().length > 0}>
        <section class="checklist" data-testid="list-others">
          <h3>{LIST.others}</h3>
          <ul>
            <For each={others()}>
              {({ id, text, answer }) => (
                <li>
                  {itemName(id, text)}
                  {UI.colon}{' '}
                  {answer?.atUtcMs == null ? LIST.noTime : LIST.seen(dateTime(answer.atUtcMs), answer.by)}
                </li>
              )}
            </For>
          </ul>
        </section>
      </Show>
      <Show when={moments().includes('mixing')}>
        <h3>{SHEET.partCautions}</h3>
        <ul class="cautions small">
          <For each={CAUTIONS_AT.sheet}>{(c) => <li>{CAUTION[c]}</li>}</For>
        </ul>
      </Show>
    </>
  );
}

const nameOf = (list: KeptChecklist): string =>
  list.listId === null ? LIST.builtIn : LIST.named(list.name, list.revision);

/** Which list the job has. Until the first answer it may be exchanged for another one that is in use. */
function WhichList(props: { form: Form<'job'> }) {
  const app = useServices();
  const own = () => props.form.draft().checklist;
  const [inUse] = createResource(() => listsInUse(app).catch(failed(app)), { initialValue: [] });
  const all = (): readonly KeptChecklist[] => {
    const others = [...(inUse.latest ?? []), builtInChecklist()];
    return others.some((l) => sameList(l, own())) ? others : [own(), ...others];
  };
  const key = (list: KeptChecklist) => `${list.listId ?? ''} ${list.revision}`;
  const isFixed = () => props.form.draft().answers.length > 0;
  return (
    <Show
      when={!isFixed() && all().length > 1}
      fallback={
        <p class="small muted" data-testid="list-name">
          {nameOf(own())}
          <Show when={isFixed() && all().length > 1}>. {LIST.keeps}</Show>
        </p>
      }
    >
      <Choice
        label={LIST.which}
        value={key(own())}
        options={all().map((l) => ({ value: key(l), text: nameOf(l) }))}
        onValue={(chosen) => {
          const list = all().find((l) => key(l) === chosen);
          if (list !== undefined) props.form.change({ checklist: list });
        }}
        testId="list-choice"
      />
    </Show>
  );
}
