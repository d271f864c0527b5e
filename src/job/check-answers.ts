import * as z from 'zod/mini';
import { ANSWERED, type CheckSaid, type Moment } from './checklist.ts';
import { inOrder, type KeptChecklist, type KeptItem } from './checklist-document.ts';
import { distinct, id, line } from './fields.ts';

/** Who answered which item of a job's checklist, when and how. */

/** Answers may be of items that a list has no more: they are kept. */
export const MOST_ANSWERS = 120;
/** Longest value or reason. */
export const MOST_SAID = 200;
/** Last moment that a clock can show, ms. */
const LAST_MS = 8_640_000_000_000_000;

export const answerSchema = z.strictObject({
  item: id(),
  how: z.enum(ANSWERED),
  /** The number or text that the item wants, or the reason why it was gone on without; may be empty. */
  text: line(MOST_SAID),
  /** By the computer's clock; null: ticked before times were kept. */
  atUtcMs: z.nullable(z.int().check(z.gte(0), z.lte(LAST_MS))),
  /** Initials; empty: nobody was named. */
  by: line(8),
});
export type CheckAnswer = z.infer<typeof answerSchema>;

export const answersSchema = distinct(answerSchema, 'item', MOST_ANSWERS);

/** What a run's record holds of an item: in itself, so that it is told whatever became of the list. */
export interface SaidItem {
  readonly item: string;
  /** The item's words; empty: the language's own for that item of the built-in list. */
  readonly said: string;
  readonly safety: boolean;
  readonly how: CheckSaid;
  readonly text: string;
  readonly by: string;
  readonly atUtcMs: number | null;
}

export const withAnswer = (answers: readonly CheckAnswer[], answer: CheckAnswer): readonly CheckAnswer[] => [
  ...answers.filter((a) => a.item !== answer.item),
  answer,
];

export const withoutAnswer = (answers: readonly CheckAnswer[], item: string): readonly CheckAnswer[] =>
  answers.filter((a) => a.item !== item);

/** The sheet's answers with what was said since in a run, in the order of time: the run's record has the last word. */
export function answersWith(
  answers: readonly CheckAnswer[],
  said: readonly SaidItem[],
): readonly CheckAnswer[] {
  let all = answers;
  for (const { item, how, text, by, atUtcMs } of said)
    all = how === 'taken-back' ? withoutAnswer(all, item) : withAnswer(all, { item, how, text, by, atUtcMs });
  return all;
}

/** A line of the list as it is told. */
export interface ListLine {
  readonly id: string;
  /** null: the list has no such item; then neither is known when it was asked. */
  readonly at: Moment | null;
  /** null: the language's own words; empty: nothing is known of it but its id. */
  readonly text: string | null;
  readonly safety: boolean;
  readonly unit: string;
  readonly answer: CheckAnswer | null;
}

/** The whole list with its answers, in the order of the work; behind them those that no item of the list has asked for. */
export function linesOf(
  list: KeptChecklist,
  answers: readonly CheckAnswer[],
  said: readonly SaidItem[] = [],
): readonly ListLine[] {
  const all = answersWith(answers, said);
  const own = inOrder(list.items).map(({ id: item, at, text, safety, unit }) => ({
    id: item,
    at,
    text,
    safety,
    unit,
    answer: all.find((a) => a.item === item) ?? null,
  }));
  const others = all
    .filter((a) => !list.items.some((i) => i.id === a.item))
    .map((answer) => {
      const was = said.findLast((s) => s.item === answer.item);
      return {
        id: answer.item,
        at: null,
        text: was === undefined ? '' : was.said === '' ? null : was.said,
        safety: was?.safety ?? false,
        unit: '',
        answer,
      };
    });
  return [...own, ...others];
}

/** Items of these moments that nobody has answered, in the order of the work. */
export const openItems = (
  list: KeptChecklist,
  answers: readonly CheckAnswer[],
  moments: readonly Moment[],
): readonly KeptItem[] =>
  inOrder(list.items).filter((i) => moments.includes(i.at) && !answers.some((a) => a.item === i.id));
