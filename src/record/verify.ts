/**
 * Verifying a job's file: every byte of it is made again or checked against a signature, and what differs is
 * named. Takes bytes from anywhere; never throws on them.
 */

import { ENGINE } from '../watch/codes.ts';
import { type ByteSource, partOf, readAll } from './byte-source.ts';
import { Inventory } from './derived-files.ts';
import { firstDifference } from './difference.ts';
import { named } from './file-findings.ts';
import { type Finding, type Remark, VERDICTS, type Verdict, verdictOf } from './findings.ts';
import { HeldPages } from './held-pages.ts';
import { fromHex, toHex } from './hex.ts';
import { termFault } from './key-terms.ts';
import {
  type Content,
  differingMembers,
  isOfAnotherJob,
  MAX_MANIFEST_BYTES,
  type Manifest,
  PRACTICE_SCHEMA,
  parseManifest,
  type ReadContent,
} from './manifest.ts';
import { additionName, CORE_FILES, FILE, isExtraName, isProofName } from './members.ts';
import { cutFindings, pageFindings } from './page-findings.ts';
import type { RunVisitor } from './reader.ts';
import { isUnderived } from './reservations.ts';
import { type Addition, checkAddition, MAX_ADDITIONS, type Sealed, type SealedAddition } from './seal.ts';
import { fingerprintOf, pemOf } from './signing.ts';
import {
  checkDerived,
  checkJudgement,
  type VerifyOptions,
  type Work,
  whyNotJudged,
} from './verify-derived.ts';
import { type Member, readMembers, signedPages } from './verify-members.ts';
import { remark, remarkSuccession } from './verify-remarks.ts';
import { checkWitness, type FileProof, type NotedPages, notedPages, proofIn } from './verify-witness.ts';
import { isMemberName, isNoAccident, LOCAL_BYTES, type ZipFault, type ZipProblem } from './zip-form.ts';
import { readZip } from './zip-reader.ts';

export type { VerifyOptions } from './verify-derived.ts';

export interface Verification {
  readonly verdict: Verdict;
  readonly findings: readonly Finding[];
  readonly remarks: readonly Remark[];
  /** What the record says; null where it can't be read. Only `valid` makes it more than a claim. */
  readonly manifest: Manifest | null;
  readonly additions: readonly Addition[];
  readonly fingerprint: string | null;
  /** Whose key it is, when it is known here. */
  readonly signer: string | null;
  /** The members of the file that were found, by name. */
  readonly files: ReadonlyMap<string, ByteSource>;
  readonly sealed: Sealed | null;
  /** What it carries of the witness log; null where it carries nothing that can be read. */
  readonly witness: FileProof | null;
  /** Everything in its pages has a form that this version knows, and so can be shown. */
  readonly shown: boolean;
}

/** @param file is read in chunks: it need not stand in memory */
export async function verifyJobFile(file: ByteSource, options: VerifyOptions): Promise<Verification> {
  const findings: Finding[] = [];
  const { entries, problem } = await readZip(file);
  // By its first name, wherever the header around it is damaged.
  const begin = await file.read(LOCAL_BYTES, FILE.check.length);
  const ours = new TextDecoder('latin1').decode(begin) === FILE.check;
  if (problem !== null) findings.push(containerFinding(problem, ours, entries.length > 0));
  else if (!ours) findings.push({ f: 'refused', why: 'not-a-record', offset: 0 });
  const refused = findings.some((f) => f.f === 'refused');
  const inventory = new Inventory();
  const noted = await notedPages(file, refused ? [] : entries);
  const held = new HeldPages();
  const also: Pick<RunVisitor, 'page'> = {
    page(page, hash) {
      noted.hashed(page.header.index, hash);
      held.page(page);
      if (options.sense !== null) inventory.page(page);
    },
  };
  const first = options.firstOnly === true;
  let begun: Work['begun'];
  const asked = refused ? [] : first ? entries.filter((e) => isToldFirst(e.name)) : entries;
  const pages = first ? await signedPages(file, asked, options.crypto) : null;
  const { files, read, apart } = await readMembers(
    file,
    asked,
    options.crypto,
    also,
    pages === null ? null : { pages, named: noted },
    ({ content, scan }) => {
      if (whyNotJudged(options, content, scan.damage.length === 0) === null)
        begun = options.judge?.elsewhere?.();
    },
    options.digests,
  );
  inventory.sound = read !== null && read.scan.damage.length === 0;
  const work: Work = { options, files, inventory, begun, findings, remarks: [] };
  if (problem === null)
    for (const { name, sound } of files.values())
      if (!sound) findings.push({ f: 'file', file: name, offset: null });
  // What a later program recorded has kinds of its own: it is shown by that program.
  const engine = read?.content.engine ?? ENGINE;
  if (engine <= ENGINE) findings.push(...held.findings(!first && inventory.sound, engine === ENGINE));
  const cut =
    problem?.fault === 'truncated' && problem.name === FILE.pages
      ? partOf(file, problem.offset, file.size - problem.offset)
      : null;
  const heads = pages === null ? null : apart;
  const record = refused ? null : await readRecord(work, problem === null, { read, heads }, cut, noted);
  if (record !== null) work.remarks.push(...held.remarks(record.manifest, record.additions));
  const done = finish(work, record);
  return { ...done, shown: held.shown };
}

function containerFinding({ fault, offset, name }: ZipProblem, ours: boolean, some: boolean): Finding {
  if (isNoAccident(fault) && !(ours && isFlip(fault))) return { f: 'refused', why: fault, offset };
  if (fault !== 'truncated' && !ours && some) return { f: 'refused', why: 'not-a-record', offset: 0 };
  return { f: 'container', why: fault, offset, file: name };
}

/** Nothing was found but derived files that no signed sums cover. */
const lacksSums = (v: Verification): boolean =>
  v.verdict === 'incomplete' &&
  v.findings.every(
    (f) =>
      f.f === 'practice' ||
      f.f === 'signer' ||
      f.f === 'addition-signer' ||
      (f.f === 'missing' && f.file === FILE.sums),
  );

/**
 * Holds a job's file against its signed sums and makes nothing again. One that was built after its key was gone has
 * none: then its derived files are made again after all.
 * @param derive called only when it is needed
 */
export async function verifyBySums(
  file: ByteSource,
  options: Omit<VerifyOptions, 'sense' | 'judge' | 'words' | 'extras'>,
  derive: () => Pick<VerifyOptions, 'sense' | 'words' | 'extras'>,
): Promise<Verification> {
  const quick = await verifyJobFile(file, { ...options, sense: null, judge: null });
  if (!lacksSums(quick)) return quick;
  return verifyJobFile(file, { ...options, ...derive(), judge: null });
}

/** A single changed byte of a header may look like these; in a file that begins as ours it is a change. */
const isFlip = (fault: ZipFault): boolean => fault !== 'not-a-zip' && fault !== 'too-many';

interface RecordRead {
  readonly manifest: Manifest;
  readonly sealed: Sealed;
  readonly additions: readonly Addition[];
  readonly witness: FileProof | null;
}

function finish(work: Work, read: RecordRead | null): Omit<Verification, 'shown'> {
  const { findings, remarks, options } = work;
  const fingerprint = read?.manifest.signer.fingerprint ?? null;
  const signer = fingerprint === null ? null : (options.trusted.get(fingerprint) ?? null);
  if (read !== null && fingerprint !== null) {
    const why = termFault(options.terms?.get(fingerprint), read.manifest.sealedUtcMs);
    if (signer === null) findings.push({ f: 'signer', fingerprint });
    else if (why !== null) findings.push({ f: 'signer', fingerprint, why });
  }
  const verdicts = new Set<Verdict>(findings.map(verdictOf));
  if (isUnderived(remarks)) verdicts.add('not-derived');
  const verdict = VERDICTS.find((v) => verdicts.has(v)) ?? 'valid';
  return {
    verdict,
    findings,
    remarks,
    manifest: read?.manifest ?? null,
    additions: read?.additions ?? [],
    fingerprint,
    signer,
    files: new Map([...work.files].map(([name, { content }]) => [name, content])),
    sealed: read?.sealed ?? null,
    witness: read?.witness ?? null,
  };
}

/**
 * @param whole the container is sound, so that a file which is not there is missing and not merely unread
 * @param pagesRead what the pages say; heads: of signed ones whose heads alone were read, what they contradict
 * @param cut the pages of a file that ends within them
 */
async function readRecord(
  work: Work,
  whole: boolean,
  pagesRead: { readonly read: ReadContent | null; readonly heads: readonly string[] | null },
  cut: ByteSource | null,
  noted: NotedPages,
): Promise<RecordRead | null> {
  const { files, findings } = work;
  const names = [...files.keys()];
  const first = work.options.firstOnly === true;
  if (whole && !first) {
    for (const name of CORE_FILES) if (!files.has(name)) findings.push({ f: 'missing', file: name });
    checkSequence(work, names);
  }
  const there = files.get(FILE.manifest);
  if (there === undefined) return null;
  if (there.content.size > MAX_MANIFEST_BYTES) {
    findings.push({ f: 'manifest', why: 'form' });
    return null;
  }
  const manifestBytes = await readAll(there.content);
  const read = parseManifest(manifestBytes);
  if (!read.ok) {
    if (read.what === 'version') findings.push({ f: 'refused', why: 'version', offset: there.start });
    else findings.push({ f: 'manifest', why: 'form' });
    return null;
  }
  const { manifest } = read;
  await checkSignature(work, manifest, manifestBytes);
  const pages = files.get(FILE.pages);
  if (cut !== null) findings.push(...(await cutFindings(manifest, cut, work.options.crypto.hashing)));
  const { heads } = pagesRead;
  if (heads !== null && heads.length > 0) findings.push({ f: 'contradiction', members: heads });
  const content =
    pages === undefined || heads !== null ? null : await checkPages(work, manifest, pages, pagesRead.read);
  const signed = first ? null : await checkSums(work, manifest);
  const proof = await proofIn(files);
  const sealed = await sealedIn(files, manifestBytes, proof ?? []);
  const sha256Of = async (bytes: Uint8Array): Promise<string> =>
    toHex(await work.options.crypto.sha256(bytes));
  const statements = await Promise.all(sealed.additions.map((a) => sha256Of(a.statement)));
  const manifestSha256 = await sha256Of(manifestBytes);
  // Told behind the rest; the certificate says what they bound.
  const aside: Work = { ...work, findings: [], remarks: [] };
  const witness = whole
    ? await checkWitness(aside, proof, manifest, manifestSha256, statements, noted)
    : null;
  const witnessed = aside.findings.length === 0 ? (witness?.check.witnessed ?? null) : null;
  if (pages !== undefined && whole && !first) await checkDerived(work, manifest, content, signed, witnessed);
  if (pages !== undefined && content !== null && !first) await checkJudgement(work, content, pages);
  const additions = await checkAdditions(work, sealed, manifest.runId);
  remark(work, manifest, additions, whole && !first && !files.has(FILE.sums));
  await remarkSuccession(work, manifest);
  work.findings.push(...aside.findings);
  work.remarks.push(...aside.remarks);
  return { manifest, sealed, additions, witness };
}

/** What is signed by itself, and need not be made again. */
const isToldFirst = (name: string): boolean =>
  ([FILE.manifest, FILE.signature, FILE.signer, FILE.pages] as readonly string[]).includes(name) ||
  name.startsWith('additions/') ||
  isProofName(name);

/** Names and their order follow from what the file holds. */
function checkSequence({ findings, files }: Work, names: readonly string[]): void {
  const rest = names.filter((n) => !CORE_FILES.includes(n));
  const additions = rest.filter((n) => n.startsWith('additions/'));
  const sums = ([FILE.sums, FILE.sumsSignature] as readonly string[]).filter((n) => rest.includes(n));
  const proof = rest.filter((n) => isProofName(n));
  const extras = rest.filter((n) => isExtraName(n));
  for (const n of rest)
    if (!additions.includes(n) && !sums.includes(n) && !extras.includes(n) && !proof.includes(n))
      findings.push({ f: 'strange', file: n });
  if (sums.length === 1)
    findings.push({ f: 'missing', file: sums[0] === FILE.sums ? FILE.sumsSignature : FILE.sums });
  const count = Math.ceil(additions.length / 3);
  const wanted = Array.from({ length: count }, (_, i) =>
    (['json', 'sig', 'pem'] as const).map((e) => additionName(i + 1, e)),
  ).flat();
  for (const n of wanted) if (!files.has(n)) findings.push({ f: 'missing', file: n });
  for (const n of additions) if (!wanted.includes(n)) findings.push({ f: 'strange', file: n });
  const order = [
    ...CORE_FILES.filter((n) => files.has(n)),
    ...[...extras].sort(),
    ...[...proof].sort(),
    ...[FILE.sums, FILE.sumsSignature].filter((n) => files.has(n)),
    ...wanted.filter((n) => files.has(n)),
  ];
  const first = order.findIndex((n, i) => names[i] !== n);
  if (first >= 0 && names.length === order.length)
    findings.push({
      f: 'container',
      why: 'sequence',
      offset: files.get(names[first]!)!.offset,
      file: names[first]!,
    });
}

async function checkSignature(
  { files, findings, options }: Work,
  manifest: Manifest,
  bytes: Uint8Array,
): Promise<void> {
  const key = fromHex(manifest.signer.publicKey)!;
  const signature = await bytesOf(files, FILE.signature);
  if (manifest.signer.fingerprint !== (await fingerprintOf(options.crypto, key)))
    findings.push({ f: 'manifest', why: 'fingerprint' });
  if (signature !== undefined && !(await options.crypto.verify(key, bytes, signature)))
    findings.push({ f: 'manifest', why: 'signature' });
  const pem = await bytesOf(files, FILE.signer);
  const difference = pem === undefined ? null : firstDifference(pem, new TextEncoder().encode(pemOf(key)));
  if (difference !== null) findings.push({ f: 'file', file: FILE.signer, offset: difference });
  // No program of ours seals one as a job; whoever made this record used another.
  if (manifest.schema === PRACTICE_SCHEMA) findings.push({ f: 'practice' });
  else if (manifest.practice) findings.push({ f: 'manifest', why: 'practice' });
}

/** The bytes of a member that is short; undefined without it. */
async function bytesOf(files: ReadonlyMap<string, Member>, name: string): Promise<Uint8Array | undefined> {
  const found = files.get(name);
  return found === undefined ? undefined : readAll(found.content);
}

/** What the pages say, when they are the signed ones; null after naming what differs. */
async function checkPages(
  { findings, options }: Work,
  manifest: Manifest,
  pages: Member,
  read: ReadContent | null,
): Promise<Content | null> {
  if (pages.sha256 !== manifest.pagesSha256) {
    findings.push(...(await pageFindings(manifest, pages.content, read, options.crypto.hashing)));
    return null;
  }
  if (read === null) {
    findings.push({ f: 'contradiction', members: ['pages'] });
    return null;
  }
  const members = [...differingMembers(manifest, read.content)];
  if (isOfAnotherJob(manifest)) members.push('job');
  if (members.length > 0) findings.push({ f: 'contradiction', members });
  if (read.content.end === null)
    findings.push({
      f: 'pages',
      why: 'end',
      page: read.scan.nextIndex,
      pages: 1,
      offset: pages.size,
      fromUs: read.scan.lastUs,
      toUs: null,
    });
  return read.content;
}

/** Names that the signed sums vouch for; null when there are no sums that hold. */
async function checkSums(
  { files, findings, options }: Work,
  manifest: Manifest,
): Promise<ReadonlySet<string> | null> {
  const sums = await bytesOf(files, FILE.sums);
  const signature = await bytesOf(files, FILE.sumsSignature);
  if (sums === undefined || signature === undefined) return null;
  const key = fromHex(manifest.signer.publicKey)!;
  if (!(await options.crypto.verify(key, sums, signature))) {
    findings.push({ f: 'file', file: FILE.sums, offset: null });
    return null;
  }
  const good = new Set<string>();
  for (const line of new TextDecoder().decode(sums).split('\n')) {
    if (line === '') continue;
    const [sum, name] = [line.slice(0, 64), line.slice(66)];
    // What is no name of ours is shown to nobody: it may be made for a terminal.
    if (!/^[0-9a-f]{64} {2}/.test(line) || !isMemberName(name)) {
      named(findings, FILE.sums, null);
      continue;
    }
    const entry = files.get(name);
    if (entry === undefined) {
      if (!CORE_FILES.includes(name)) findings.push({ f: 'missing', file: name });
    } else if (entry.sha256 === sum) good.add(name);
    else if (name !== FILE.pages) named(findings, name, null);
  }
  return good;
}

async function sealedIn(
  files: ReadonlyMap<string, Member>,
  manifest: Uint8Array,
  proof: Sealed['proof'],
): Promise<Sealed> {
  const additions: SealedAddition[] = [];
  for (let i = 1; i <= MAX_ADDITIONS; i++) {
    const statement = await bytesOf(files, additionName(i, 'json'));
    const signature = await bytesOf(files, additionName(i, 'sig'));
    if (statement === undefined || signature === undefined) break;
    additions.push({ statement, signature });
  }
  return {
    manifest,
    signature: (await bytesOf(files, FILE.signature)) ?? new Uint8Array(0),
    additions,
    proof,
  };
}

async function checkAdditions(
  { files, findings, options }: Work,
  sealed: Sealed,
  runId: string,
): Promise<readonly Addition[]> {
  const good: Addition[] = [];
  if (files.has(additionName(MAX_ADDITIONS + 1, 'json')))
    findings.push({ f: 'addition', number: MAX_ADDITIONS + 1, why: 'too-many' });
  for (let i = 0; i < sealed.additions.length; i++) {
    const read = await checkAddition(sealed, runId, i, options.crypto);
    if (!read.ok) {
      findings.push({ f: 'addition', number: i + 1, why: read.fault });
      continue;
    }
    good.push(read.addition);
    const { fingerprint } = read.addition.signer;
    const why = termFault(options.terms?.get(fingerprint), read.addition.utcMs);
    if (!options.trusted.has(fingerprint))
      findings.push({ f: 'addition-signer', number: i + 1, fingerprint });
    else if (why !== null) findings.push({ f: 'addition-signer', number: i + 1, fingerprint, why });
    const name = additionName(i + 1, 'pem');
    const pem = await bytesOf(files, name);
    const wanted = new TextEncoder().encode(pemOf(fromHex(read.addition.signer.publicKey)!));
    const difference = pem === undefined ? null : firstDifference(pem, wanted);
    if (difference !== null) named(findings, name, difference);
  }
  return good;
}
