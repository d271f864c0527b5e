/** The job's checklist with its answers on a certificate: leaves behind the three that every one has. */
import type { ListLine } from '../../job/check-answers.ts';
import type { Catalogue } from '../../words/catalogue.ts';
import { checklistOf } from '../checklist-told.ts';
import { escapeXml as esc } from '../escape.ts';
import type { Seen } from './exceptions.ts';
import { utcText } from './facts.ts';

/** Lines of a leaf, and letters of a line of the two wide columns. */
const LEAF_LINES = 44;
const ITEM_LETTERS = 52;
const ANSWER_LETTERS = 30;

function answerText({ answer, unit }: ListLine, words: Catalogue): string {
  const { CERTIFICATE: C } = words.certificate;
  const { LIST } = words.checks;
  if (answer === null) return C.checkOpen;
  if (answer.how === 'passed') return LIST.passed(answer.text);
  return answer.text === '' ? C.checkDone : LIST.value(answer.text, unit);
}

/** The insides of the leaves; none where there is neither a list nor an answer. */
export function checklistLeaves({ manifest, bundle, words }: Seen): readonly string[] {
  const { CERTIFICATE: C } = words.certificate;
  const { itemName, LIST, MOMENT } = words.checks;
  const lines = checklistOf(bundle, manifest.events, manifest.openedUtcMs);
  const leaves: { rows: string[]; used: number }[] = [];
  let heading: string | null = null;
  for (const line of lines) {
    const { id, text, at, safety, answer } = line;
    const item = safety ? C.checkSafety(itemName(id, text)) : itemName(id, text);
    const said = answerText(line, words);
    const over = at === null ? LIST.others : MOMENT[at];
    const isNew = over !== heading;
    const takes =
      Math.max(Math.ceil(item.length / ITEM_LETTERS), Math.ceil(said.length / ANSWER_LETTERS)) +
      (isNew ? 1.3 : 0);
    let leaf = leaves.at(-1);
    if (leaf === undefined || leaf.used + takes > LEAF_LINES) {
      leaf = { rows: [], used: 0 };
      leaves.push(leaf);
    }
    heading = over;
    leaf.used += takes;
    if (isNew) leaf.rows.push(`<tr><th scope="rowgroup" colspan="4">${esc(over)}</th></tr>`);
    const when =
      answer === null ? '' : answer.atUtcMs === null ? LIST.noTime : utcText(words, answer.atUtcMs);
    leaf.rows.push(
      `<tr><td>${esc(item)}</td><td>${esc(said)}</td><td>${esc(when)}</td><td>${esc(answer?.by ?? '')}</td></tr>`,
    );
  }
  const kept = bundle?.job.checklist ?? null;
  const list =
    kept === null ? LIST.title : kept.listId === null ? LIST.builtIn : LIST.named(kept.name, kept.revision);
  return leaves.map(
    ({ rows }) =>
      `<h2 class="big">${esc(C.checklist)}</h2>\n<p class="small">${esc(C.checklistOf(list))}</p>\n<table class="grid list"><thead><tr><th scope="col">${esc(C.checkItem)}</th><th scope="col">${esc(C.checkAnswer)}</th><th scope="col">${esc(C.checkWhen)}</th><th scope="col">${esc(C.checkBy)}</th></tr></thead><tbody>${rows.join('')}</tbody></table>`,
  );
}
