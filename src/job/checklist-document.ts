import * as z from 'zod/mini';
import { BUILT_IN, CHECKS, type CheckCode, MOMENTS, type Moment, WANTS } from './checklist.ts';
import { distinct, id, int, line, name, rule } from './fields.ts';
import { type Body, isBody, type StepsTo } from './migrations.ts';

/** More items nobody goes through at an open manhole. */
export const MOST_ITEMS = 60;

const item = <T extends z.ZodMiniType>(text: T) =>
  z.strictObject({
    /** Answers and records name it: it stays, whatever the words become. */
    id: id(),
    at: z.enum(MOMENTS),
    text,
    /** Asked before the stage's main key goes on; gone on without it only for a reason. */
    safety: z.boolean(),
    wants: z.enum(WANTS),
    /** What a number is told in; empty: it has no unit, or the item wants none. */
    unit: line(12),
  });

export const itemText = () => name(160);

/** A checklist that a firm made, in its own words. */
export const checklistSchema = z.strictObject({
  version: z.literal(1),
  is: z.literal('checklist'),
  name: name(80),
  /** New job sheets may take it. */
  inUse: z.boolean(),
  items: distinct(item(itemText()), 'id', MOST_ITEMS).check(z.minLength(1)),
});
export type ChecklistDocument = z.infer<typeof checklistSchema>;
export type ChecklistItem = ChecklistDocument['items'][number];

export const checklistMigrations: StepsTo<ChecklistDocument['version']> = [];

const isBuiltIn = (code: string): code is CheckCode => Object.hasOwn(BUILT_IN, code);

/** An item as a job keeps it: null for words that are the language's own. */
const keptItem = item(z.nullable(itemText())).check(
  z.refine((i) => i.text !== null || isBuiltIn(i.id), { ...rule('blank'), path: ['text'] }),
);

/** The list as it was when the job was opened, whole: what a firm changes later changes no job and no record. */
export const keptChecklistSchema = z.strictObject({
  /** null: the built-in one. */
  listId: z.nullable(id()),
  /** As often as the firm had saved it; 0 for the built-in one. */
  revision: int(0, 1_000_000),
  name: line(80),
  items: distinct(keptItem, 'id', MOST_ITEMS),
});
export type KeptChecklist = z.infer<typeof keptChecklistSchema>;
export type KeptItem = KeptChecklist['items'][number];

export const builtInChecklist = (): KeptChecklist => ({
  listId: null,
  revision: 0,
  name: '',
  items: CHECKS.map((code) => ({ id: code, ...BUILT_IN[code], text: null, wants: 'tick', unit: '' })),
});

/** A firm's list as a job keeps it. */
export const keptOf = ({
  id: listId,
  revision,
  document: { name: listName, items },
}: {
  readonly id: string;
  readonly revision: number;
  readonly document: ChecklistDocument;
}): KeptChecklist => ({ listId, revision, name: listName, items });

/** The built-in list in a firm's own words, to be changed. */
export const ownCopy = (listName: string, words: Readonly<Record<CheckCode, string>>): ChecklistDocument => ({
  version: 1,
  is: 'checklist',
  name: listName,
  inUse: true,
  items: CHECKS.map((code) => ({
    id: code,
    ...BUILT_IN[code],
    text: words[code],
    wants: 'tick' as const,
    unit: '',
  })),
});

/** In the order of the work: by moment, within one as the list has them. */
export const inOrder = <I extends { readonly at: Moment }>(items: readonly I[]): readonly I[] =>
  MOMENTS.flatMap((at) => items.filter((i) => i.at === at));

/** Moves an item past the neighbour of its own moment; the same list where there is none. */
export function movedItem<I extends { readonly at: Moment }>(
  items: readonly I[],
  from: number,
  by: -1 | 1,
): readonly I[] {
  const moving = items[from];
  if (moving === undefined) return items;
  let to = from + by;
  while (items[to] !== undefined && items[to]?.at !== moving.at) to += by;
  if (items[to] === undefined) return items;
  const next = items.filter((_, i) => i !== from);
  next.splice(to, 0, moving);
  return next;
}

const TAGS = /<\/?[a-z!][^<>]*>/gi;

/** A text as a list may have it: no markup, one line. */
export const plainText = (text: string): string => text.replace(TAGS, ' ').replace(/\s+/gu, ' ').trim();

/** A list as it came in a file, with markup taken out of its texts, and how many of them had some. */
export function tamed(input: unknown): { readonly value: unknown; readonly changed: number } {
  if (!isBody(input)) return { value: input, changed: 0 };
  let changed = 0;
  const tame = (body: Body, key: string): Body => {
    const text = body[key];
    if (typeof text !== 'string') return body;
    const plain = plainText(text);
    if (plain === text) return body;
    changed++;
    return { ...body, [key]: plain };
  };
  const head = tame(input, 'name');
  const list: unknown = head.items;
  // Of a list that is refused for its length nothing is changed.
  if (!Array.isArray(list) || list.length > MOST_ITEMS) return { value: head, changed };
  return { value: { ...head, items: list.map((i: unknown) => (isBody(i) ? tame(i, 'text') : i)) }, changed };
}
