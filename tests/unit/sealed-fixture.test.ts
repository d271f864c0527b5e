import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, type TestContext } from 'vitest';
import { runCheckpoint } from '../../src/cli/checkpoint-run.ts';
import { runVerify } from '../../src/cli/verify-run.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { english } from '../../src/words/testing/english.ts';
import { notRun } from './not-run.ts';

// The sealed job that anybody can try, as docs/record.md walks through it.

const top = path.join(import.meta.dirname, '../..');
const page = readFileSync(path.join(top, 'docs/record.md'), 'utf8');
const folder = mkdtempSync(path.join(tmpdir(), 'steadybar-fixture-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The commands of a stretch of the page, as they stand in it. */
const commandsFrom = (from: string, to: string): string[] =>
  page
    .slice(page.indexOf(from), page.indexOf(to))
    .split('\n')
    .filter((l) => /^ {4,}\S/.test(l))
    .map((l) => l.trim());

/** A shell that knows nothing of this program, and little of this machine. */
function shell(command: string, cwd: string) {
  const run = spawnSync('env', ['-i', 'PATH=/usr/bin:/bin', 'sh', '-c', command], { cwd, encoding: 'utf8' });
  return { status: run.status, out: run.stdout.trim() };
}

function need(context: TestContext): void {
  for (const [name, arg] of [
    ['unzip', '-v'],
    ['openssl', 'version'],
    ['sha256sum', '--version'],
    ['xxd', '-v'],
  ] as const)
    if (spawnSync(name, [arg], { stdio: 'ignore' }).status !== 0) notRun(context, `no ${name}`);
}

const keys = new Map(
  readFileSync(path.join(top, 'fixtures/records/keys.txt'), 'utf8')
    .split('\n')
    .filter((l) => /^[0-9a-f]{64} /.test(l))
    .map((l) => [l.slice(65), l.slice(0, 64)]),
);

it('is valid by the command that the page gives, judged again, and by nobody else’s keys', async () => {
  const [command] = commandsFrom('By the program, which says the same', 'By the command line');
  expect(command).toMatch(/^npm run --silent verify -- /);
  const args = command!
    .split(' -- ')[1]!
    .split(' ')
    .map((a) => (a.startsWith('fixtures/') ? path.join(top, a) : a));
  const done = await runVerify([...args, '--json'], english, loadCatalogue);
  expect(done.exitCode).toBe(0);
  const { remarks, findings, signer } = JSON.parse(done.text) as Record<string, unknown[] | string>;
  expect([findings, signer]).toEqual([[], 'Tablet 1']);
  expect(remarks).not.toContainEqual(expect.objectContaining({ r: 'not-judged' }));
  expect(remarks).toContainEqual({ r: 'additions', count: 2 });
  for (const side of ['not-before', 'not-after'])
    expect(remarks).toContainEqual(
      expect.objectContaining({ r: 'bounded', side, name: 'Office, as a witness' }),
    );
  const unknown = await runVerify([args[0]!], english, loadCatalogue);
  expect(unknown.exitCode).toBe(3);
});

it('is of one history with what a phone read from the code at the end of its run', async () => {
  const [command] = commandsFrom('that the record and the photograph are', '**Comparing checkpoints**');
  const args = command!.split(' -- ')[1]!.split(' ');
  const done = await runCheckpoint(
    args.map((a) => path.join(top, a)),
    english,
  );
  expect([done.exitCode, done.text]).toEqual([0, expect.stringContaining('The same history')]);
});

it('holds by the steps of the page in a bare shell', (context) => {
  need(context);
  const [unpack, ...more] = commandsFrom('Unpack it and type the steps', 'By the program, which');
  expect(more).toEqual([]);
  const [unzip] = unpack!.replace('/tmp/record', folder).split(' && ');
  expect(shell(unzip!, top).status).toBe(0);
  const steps = commandsFrom('In the folder of the', 'To try it there is');
  expect(steps).toHaveLength(12);
  for (const command of steps) {
    const { status, out } = shell(command, folder);
    if (command.startsWith('ls ')) {
      expect([command, out]).toEqual([command, '']);
      continue;
    }
    expect(status, command).toBe(0);
    if (command.includes('pkeyutl')) expect(out).toBe('Signature Verified Successfully');
    if (command.startsWith('grep')) expect(out, command).toBe('1');
    if (command.startsWith('openssl pkey ')) expect(out).toContain(keys.get('Tablet 1'));
  }
  // The second addition, as the page says it is done.
  const second = steps
    .filter((c) => c.includes('additions/0001'))
    .map((c) =>
      c.startsWith('grep -c "\\"previousSha256')
        ? c
            .replace('< manifest.json', '< additions/0001.json')
            .replace(/ additions\/0001\.json$/, ' additions/0002.json')
        : c.replaceAll('0001', '0002'),
    );
  expect(second).toHaveLength(5);
  for (const command of second) {
    const { status, out } = shell(command, folder);
    expect(status, command).toBe(0);
    if (command.startsWith('grep')) expect(out, command).toBe('1');
    if (command.startsWith('openssl pkey ')) expect(out).toContain(keys.get('Office'));
  }
});

it('is the one that its certificate names, by the numbers that stand on paper', (context) => {
  need(context);
  const from = page.indexOf('Who holds the printed certificate');
  const commands = [...page.slice(from, page.indexOf('\n\n', from)).matchAll(/`([^`]*sha256sum[^`]*)`/g)];
  expect(commands).toHaveLength(2);
  const paper = readFileSync(path.join(folder, 'certificate.html'), 'utf8').replace(/<[^>]*>|\s+/g, ' ');
  for (const [, command] of commands) {
    const groups = shell(command!, folder).out.split('\n').slice(0, 16).join(' ');
    expect(groups).toMatch(/^([0-9A-F]{4} ){15}[0-9A-F]{4}$/);
    expect(paper.replace(/ +/g, ' ')).toContain(groups);
  }
});

/** The script of the page on the witness log, run in the unpacked record: its lines. */
function witnessScript(): string[] {
  const from = page.indexOf('    cd witness;');
  const script = page
    .slice(from, page.indexOf('\n\n', from))
    .split('\n')
    .map((l) => l.slice(4));
  writeFileSync(path.join(folder, '..', `${path.basename(folder)}.sh`), script.join('\n'));
  const photograph = path.join(top, 'fixtures/records/photograph.txt');
  return shell(`sh ../${path.basename(folder)}.sh ${photograph} 2>&1`, folder).out.split('\n');
}

it('the witness log holds by the script of the page in a bare shell, and not with a leaf changed', (context) => {
  need(context);
  const lines = witnessScript();
  expect(lines).toContain('the log\u0027s key');
  expect(lines).toContain('this record');
  expect(lines.filter((l) => l === 'Signature Verified Successfully').length).toBeGreaterThanOrEqual(2);
  expect(lines.filter((l) => l.endsWith(': one history with after.txt'))).toEqual([
    'before.txt: one history with after.txt',
    expect.stringContaining('photo.txt'),
  ]);
  expect(lines).toContain('the first page names it');
  const leaves = lines.filter((l) => l.startsWith('in the log: '));
  for (const what of ['opened', 'ended', 'sealed', 'added'])
    expect(leaves.join()).toContain(`"leaf":"${what}"`);
  expect(lines.filter((l) => /NOT|ANOTHER|rror|ailure/.test(l))).toEqual([]);
  // The office's words, by the key that keys.txt names; nothing else is believed.
  const seen = lines.flatMap(
    (l) => /^(\w+)\.txt was seen at (\S+) by ([0-9a-f]{64})$/.exec(l)?.slice(1) ?? [],
  );
  const office = keys.get('Office, as a witness')!;
  expect(seen.filter((_, i) => i % 3 !== 1)).toEqual(['seen', office, 'after', office]);
  expect(Date.parse(seen[1]!)).toBeLessThan(Date.parse(seen[4]!));
  expect(lines).toContain('after.txt: 1 witnesses');
  const at = path.join(folder, 'witness/leaves.txt');
  const good = readFileSync(at, 'utf8');
  writeFileSync(at, good.replace('"leaf":"sealed"', '"leaf":"Sealed"'));
  expect(witnessScript().filter((l) => l.startsWith('NOT IN THE LOG'))).toHaveLength(1);
  // A leaf that nothing proves does not stand for the record, with a line's end or without.
  writeFileSync(at, `${good.replace(/^.*"leaf":"sealed".*\n/m, '')}9 {"manifest":"${'0'.repeat(64)}"}`);
  const forged = witnessScript();
  expect(forged).toContain('ANOTHER RECORD');
  expect(forged.filter((l) => l.startsWith('NOT IN THE LOG'))).toHaveLength(1);
  writeFileSync(at, good);
});

it('the script tells of an addition that was taken out, a witness’s time that was moved, and another witness’s key', (context) => {
  need(context);
  const file = (name: string) => path.join(folder, name);
  const addition = readFileSync(file('additions/0002.json'));
  rmSync(file('additions/0002.json'));
  expect(witnessScript().filter((l) => l.startsWith('AN ADDITION WAS TAKEN OUT'))).toHaveLength(1);
  writeFileSync(file('additions/0002.json'), addition);

  const after = readFileSync(file('witness/after.txt'), 'utf8');
  const moved = after.replace(/^(— witness\S+ )(\S+)$/m, (_, head: string, line: string) => {
    const bytes = Buffer.from(line, 'base64');
    bytes.writeBigUInt64BE(bytes.readBigUInt64BE(4) - 86_400n, 4);
    return `${head}${bytes.toString('base64')}`;
  });
  expect(moved).not.toBe(after);
  writeFileSync(file('witness/after.txt'), moved);
  const lines = witnessScript();
  expect(lines.some((l) => /^after\.txt: NOT SEEN BY/.test(l))).toBe(true);
  expect(lines.some((l) => l.startsWith('after.txt was seen'))).toBe(false);
  writeFileSync(file('witness/after.txt'), after);

  const tag = keys.get('Office, as a witness')!.slice(0, 16);
  const own = readFileSync(file(`witness/${tag}.pem`));
  writeFileSync(file(`witness/${tag}.pem`), readFileSync(file('signer.pem')));
  expect(witnessScript().filter((l) => l.includes('was seen at'))).toEqual([]);
  writeFileSync(file(`witness/${tag}.pem`), own);
});

it('the script tells of a checkpoint that nothing proves to be of one history, and of a first page from before', (context) => {
  need(context);
  const bad = (name: string, change: (text: string) => string): string[] => {
    const at = path.join(folder, name);
    const good = readFileSync(at);
    const changed = Buffer.from(change(good.toString('latin1')), 'latin1');
    expect(changed.equals(good)).toBe(false);
    writeFileSync(at, changed);
    const lines = witnessScript();
    writeFileSync(at, good);
    // The folder that the script makes has letters of its own.
    return lines.map((l) => l.replace(/^\S*\/photo/, 'photo')).filter((l) => /[A-Z]{4,}/.test(l));
  };
  // A path that leads elsewhere, and a tree that is left out.
  expect(bad('witness/trees.txt', (t) => t.replace(/[0-9a-f]{4}$/m, '0000'))).toEqual([
    'before.txt: NOT PROVED TO BE ONE HISTORY WITH AFTER.TXT',
  ]);
  expect(bad('witness/trees.txt', (t) => t.replace(/^4 .*\n/m, ''))).toEqual([
    'photo.txt: NOT PROVED TO BE ONE HISTORY WITH AFTER.TXT',
  ]);
  expect(bad('pages.bin', (t) => t.replace(/"seen":"./, '"seen":"x'))).toEqual([
    'THE FIRST PAGE IS NOT PROVED TO BE FROM AFTER SEEN.TXT',
  ]);
});

it('fails by hand where one byte of any file is another', (context) => {
  need(context);
  const steps = commandsFrom('In the folder of the', 'To try it there is');
  const good = steps.map((c) => shell(c, folder));
  for (const name of ['manifest.json', 'pages.bin', 'trace.csv', 'additions/0001.json', 'signer.pem']) {
    const at = path.join(folder, name);
    const bytes = readFileSync(at);
    const bad = Buffer.from(bytes);
    bad[80]! ^= 1;
    writeFileSync(at, bad);
    expect(
      steps.map((c) => shell(c, folder)),
      name,
    ).not.toEqual(good);
    writeFileSync(at, bytes);
  }
  expect(steps.map((c) => shell(c, folder))).toEqual(good);
});
