import { keyOfPem } from '../record/signing.ts';
import { verifyJobFile } from '../record/verify.ts';
import type { FileProof } from '../record/verify-witness.ts';
import { type Comparison, compareTwo, compareWithFile, compareWithLog } from '../record/witness/compare.ts';
import { isOfRun, leafBytes, readLeaf } from '../record/witness/leaves.ts';
import { MerkleTree } from '../record/witness/merkle.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { readArguments } from './arguments.ts';
import { fault, shown } from './fault.ts';
import { openSource } from './file-source.ts';
import { readFileNamed, usedFile } from './files.ts';
import { nodeCrypto } from './node-crypto.ts';

export interface CheckpointOutcome {
  readonly exitCode: number;
  readonly text: string;
}

const OPTIONS = { log: 'value', key: 'value' } as const;
const MOST_TEXT = 1 << 20;
/** 2^25 leaves would be more; nobody has them. */
const MOST_LOG = 512 << 20;
const MOST_RECORD = 0xffff_ffff;

/** 0 one history · 1 it is not, or not signed · 2 no checkpoint · 3 nothing proves it either way. */
const EXIT: Readonly<Record<Comparison['c'], number>> = {
  'same-history': 0,
  'another-history': 1,
  shorter: 1,
  unsigned: 1,
  'other-log': 1,
  'no-checkpoint': 2,
  'not-told': 3,
};

const textOf = (name: string, most = MOST_TEXT): string =>
  new TextDecoder().decode(readFileNamed(name, name, most));

/** What a record's file carries of a log; null where it is no record. @throws InputFault where it does not hold */
async function proofIn(name: string): Promise<FileProof | null> {
  if (!/\.zip$/i.test(name)) return null;
  const file = usedFile(name, name, MOST_RECORD, openSource);
  try {
    const options = { crypto: nodeCrypto(), trusted: new Map(), sense: null, judge: null } as const;
    const { witness, verdict } = await verifyJobFile(file, options);
    if (witness === null || witness.check.faults.length > 0 || verdict === 'changed' || verdict === 'refused')
      throw fault((f) => f.noProof(shown(name)));
    return witness;
  } finally {
    file.close();
  }
}

/** The leaves of a saved log, and what they tell of its runs. */
function readLog(name: string) {
  const { hashing } = nodeCrypto();
  const tree = new MerkleTree(hashing);
  const opened = new Map<string, number>();
  const sealed = new Map<string, Set<string>>();
  const lines = textOf(name, MOST_LOG).split('\n');
  if (lines.pop() !== '') throw fault((f) => f.noLog(shown(name)));
  for (const text of lines) {
    tree.append(leafBytes(text));
    const leaf = readLeaf(text);
    if (leaf === null || !isOfRun(leaf)) continue;
    if (leaf.leaf === 'opened' && !leaf.practice) opened.set(leaf.run, leaf.at);
    if (leaf.leaf === 'sealed') sealed.set(leaf.run, (sealed.get(leaf.run) ?? new Set()).add(leaf.manifest));
  }
  const unsealed = [...opened].filter(([run]) => !sealed.has(run)).map(([, at]) => at);
  const twice = [...sealed.values()].filter((m) => m.size > 1).length;
  return { tree, opened: opened.size, unsealed, twice };
}

/**
 * Compares a checkpoint with a record's file, with another checkpoint, or with the leaves of its log.
 * @throws InputFault on options and files that can't be used
 */
export async function runCheckpoint(args: readonly string[], words: Catalogue): Promise<CheckpointOutcome> {
  const usage = words.commands.USAGE.checkpoint;
  const given = readArguments(args, OPTIONS, 'checkpoint');
  const [first, second] = given.rest;
  const logName = given.value('log');
  if (first === undefined || given.rest.length > 2 || (second === undefined && logName === null))
    throw fault((f) => f.oneCheckpoint(usage));
  const crypto = nodeCrypto();
  const proof = second === undefined ? null : await proofIn(second);
  const pem = given.value('key');
  const key = proof?.proof.logKey ?? (pem === null ? null : keyOfPem(textOf(pem)));
  if (key === null) throw fault((f) => f.needsLogKey(usage));
  const log = logName === null ? null : readLog(logName);
  const text = textOf(first);
  const told: Comparison[] = [];
  if (proof !== null) told.push(await compareWithFile(crypto, text, proof));
  if (log !== null) {
    told.push(await compareWithLog(crypto, text, key, log.tree));
    if (proof !== null) told.push(await compareWithLog(crypto, proof.proof.after, key, log.tree));
  }
  if (proof === null && second !== undefined)
    told.push(await compareTwo(crypto, text, textOf(second), key, log?.tree ?? null));
  // What the file alone does not tell, the leaves may.
  const decided = told.filter((c) => c.c !== 'not-told');
  const rows = decided.length > 0 ? decided : told;
  const lines = [...new Set(rows.map((c) => words.witness.comparisonText(c)))];
  if (log !== null) {
    const { LOG } = words.commands;
    lines.push(LOG.runs(log.tree.size, log.opened, log.unsealed.length, log.twice));
    lines.push(...log.unsealed.map((at) => LOG.unsealed(new Date(at).toISOString())));
  }
  return { exitCode: Math.max(...rows.map((c) => EXIT[c.c])), text: `${lines.join('\n')}\n` };
}
