/** This installation's witness log: its tree, the checkpoints it signs, and what witnesses gave for them. */
import { toHex } from '../../record/hex.ts';
import { type NoteSigner, noteSigner } from '../../record/stores/note-keys.ts';
import { StoreError } from '../../record/stores/store.ts';
import { createWitnessLog } from '../../record/stores/witness-log.ts';
import { checkpointText } from '../../record/witness/checkpoint.ts';
import {
  isOfRun,
  type Leaf,
  leafBytes,
  leafText,
  type Placed,
  readLeaf,
} from '../../record/witness/leaves.ts';
import { MerkleTree } from '../../record/witness/merkle.ts';
import { noteText, parseNote, signNote } from '../../record/witness/note.ts';
import type { EvidenceDeps } from '../deps.ts';

type Without<L, K extends string> = L extends unknown ? Omit<L, K> : never;
/** A leaf whose time is that of its noting. */
export type Unstamped = Without<Leaf, 'at'>;

/** What a witness gave for a tree of this log. */
export interface Given {
  readonly size: number;
  /** The note with the cosignature, as its leaf names it; or the text of the checkpoint that was stamped. */
  readonly note: string;
  readonly sha256: string;
  readonly utcMs: number;
  readonly by:
    | { readonly what: 'cosignature' /** 32 bytes, hex. */; readonly publicKey: string }
    | { readonly what: 'stamp'; readonly response: Uint8Array };
}

export interface OwnLog {
  key(): Promise<NoteSigner>;
  /** At rest when it settles. @throws StoreError */
  append(leaf: Leaf): Promise<void>;
  /** Notes what has happened already: what the store refuses now is noted with what comes next. */
  event(leaf: Unstamped): Promise<void>;
  /** All leaves that are at rest. @throws StoreError 'corrupt' where they are not those that were signed */
  tree(): Promise<MerkleTree>;
  /** Every leaf that this version knows, oldest first. */
  leaves(): AsyncIterable<Placed>;
  /** Every leaf as it rests, oldest first. */
  texts(): AsyncIterable<string>;
  /** Leaves of one run, by its hash. */
  ofRun(run: string): Promise<readonly Placed[]>;
  /** The checkpoint of a size, signed by the log, with the cosignatures that were given for it. */
  note(size: number): Promise<string>;
  /** The newest checkpoint. It leaves this installation: trees of this size are proved from now on. */
  show(): Promise<{ readonly note: string; readonly size: number }>;
  /** Sizes of checkpoints that left it. */
  shown(): Promise<readonly number[]>;
  given(): Promise<readonly Given[]>;
  /** Takes what a witness gave, and notes it in the log. */
  take(given: Given): Promise<void>;
}

/** Sizes that are kept to be proved: two a run and one an evening for years. */
const MOST_SHOWN = 4000;
const MOST_GIVEN = 4000;

interface Signed {
  readonly size: number;
  readonly root: string;
}

export function createOwnLog(deps: EvidenceDeps): OwnLog {
  const { documents, crypto } = deps;
  const log = createWitnessLog(documents, deps.utcMs);
  let grown = new MerkleTree(crypto.hashing);
  let turn: Promise<unknown> = Promise.resolve();
  /** What the store refused, oldest first. */
  const waiting: string[] = [];

  async function append(leaf: Leaf): Promise<void> {
    waiting.push(leafText(leaf));
    for (let text = waiting[0]; text !== undefined; text = waiting[0]) {
      await log.append(text);
      waiting.shift();
    }
  }

  /** One reading of new leaves at a time. */
  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const next = turn.then(work, work);
    turn = next.catch(() => undefined);
    return next;
  }

  async function put(id: string, change: (resting: unknown) => unknown): Promise<void> {
    for (let tries = 0; ; tries++) {
      const resting = await documents.get('log', id);
      const body = change(resting?.body ?? null);
      if (body === null) return;
      const revision = resting?.revision ?? 0;
      try {
        await documents.put({ kind: 'log', id, revision, savedUtcMs: deps.utcMs(), body });
        return;
      } catch (cause) {
        if (!(cause instanceof StoreError && cause.code === 'stale') || tries > 9) throw cause;
      }
    }
  }

  const tree = (): Promise<MerkleTree> =>
    inTurn(async () => {
      for await (const { leaves } of log.from(grown.size))
        for (const text of leaves) grown.append(leafBytes(text));
      const signed = (await documents.get('log', 'signed'))?.body as Signed | undefined;
      if (signed === undefined) return grown;
      if (signed.size > grown.size || toHex(grown.root(signed.size)) !== signed.root) {
        grown = new MerkleTree(crypto.hashing);
        throw new StoreError('corrupt', 'the leaves of the witness log are not those that were signed');
      }
      return grown;
    });

  const key = (): Promise<NoteSigner> => noteSigner(documents, deps.subtle, 'log', deps.utcMs());

  async function* leaves(): AsyncIterable<Placed> {
    for await (const { index, leaves: texts } of log.from(0))
      for (const [i, text] of texts.entries()) {
        const leaf = readLeaf(text);
        if (leaf !== null) yield { index: index + i, leaf, text };
      }
  }

  async function* texts(): AsyncIterable<string> {
    for await (const { leaves: sheet } of log.from(0)) yield* sheet;
  }

  async function given(): Promise<readonly Given[]> {
    const body = (await documents.get('log', 'given'))?.body;
    return Array.isArray(body) ? (body as Given[]) : [];
  }

  /** The log signs no tree that is not the continuation of what it signed. */
  async function note(size: number): Promise<string> {
    const all = await tree();
    const signer = await key();
    const root = all.root(size);
    await put('signed', (resting) =>
      ((resting as Signed | null)?.size ?? 0) >= size ? null : ({ size, root: toHex(root) } satisfies Signed),
    );
    const text = checkpointText({ origin: signer.name, size, root });
    const own = await signNote(crypto.hashing, signer.name, signer, text);
    const others = (await given()).flatMap((g) => {
      const read = g.by.what === 'cosignature' && g.size === size ? parseNote(g.note) : null;
      return read?.text === text ? read.signatures.filter((s) => s.name !== signer.name) : [];
    });
    return noteText({ text, signatures: [own, ...others] });
  }

  async function shown(): Promise<readonly number[]> {
    const body = (await documents.get('log', 'shown'))?.body;
    return Array.isArray(body) ? body.filter((n): n is number => Number.isInteger(n)) : [];
  }

  return {
    key,
    append: (leaf) => inTurn(() => append(leaf)),
    event: (leaf) =>
      inTurn(() => append({ ...leaf, at: Math.round(deps.utcMs()) } as Leaf)).catch((cause: unknown) => {
        if (!(cause instanceof StoreError)) throw cause;
      }),
    tree,
    leaves,
    texts,
    async ofRun(run) {
      const found: Placed[] = [];
      for await (const placed of leaves())
        if (isOfRun(placed.leaf) && placed.leaf.run === run) found.push(placed);
      return found;
    },
    note,
    async show() {
      const { size } = await tree();
      const signed = await note(size);
      await put('shown', (resting) => {
        const sizes = Array.isArray(resting) ? (resting as number[]) : [];
        return sizes.includes(size) ? null : [...sizes, size].slice(-MOST_SHOWN);
      });
      return { note: signed, size };
    },
    shown,
    given,
    async take(more) {
      const { what } = more.by;
      let fresh = true;
      await put('given', (resting) => {
        const list = Array.isArray(resting) ? (resting as Given[]) : [];
        fresh = !list.some((g) => g.sha256 === more.sha256);
        return fresh ? [...list, more].slice(-MOST_GIVEN) : null;
      });
      if (!fresh) {
        // Kept by a process that died before it noted it.
        for await (const { leaf } of leaves())
          if (leaf.leaf === 'witnessed' && leaf.sha256 === more.sha256) return;
      }
      await log.append(
        leafText({ leaf: 'witnessed', at: Math.round(deps.utcMs()), what, sha256: more.sha256 }),
      );
    },
  };
}
