import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PLAIN_WORDING } from '../../job/testing/wording.ts';
import { loadCatalogue } from '../../words/catalogue.ts';
import { english } from '../../words/testing/english.ts';
import { PSEUDO, untranslated, WITH_PSEUDO } from '../../words/testing/pseudo.ts';
import { createOffice } from '../testing/office.ts';

const { EXCEPTION, heldText } = english.certificate;

/** Design: words about the cure and the repair that nobody can stand by. */
const NEVER = /\b(cured|safe|guarantee\w*)\b/i;

const textOf = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>|<svg[\s\S]*?<\/svg>/g, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ');

async function certificate(
  job: Parameters<ReturnType<typeof createOffice>['keepJob']>[0] | null,
  options: Parameters<ReturnType<typeof createOffice>['record']>[0] = {},
) {
  const office = createOffice();
  if (job !== null) await office.keepJob(job);
  const runId = await office.record(options);
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const ref = { kind: 'run', runId } as const;
  const { html } = await office.ask({ q: 'certificate', ref });
  return { office, ref, html, text: textOf(html) };
}

describe('the certificate in the client’s language', () => {
  it('is sealed in the language that was chosen, its CHECK.txt too, and is told in another one on demand', async () => {
    const office = createOffice();
    const runId = await office.record({});
    await office.ask({ q: 'seal', runId, wording: { language: 'de', decimal: 'comma' } });
    const ref = { kind: 'run', runId } as const;
    const sealed = await office.ask({ q: 'certificate', ref });
    expect(sealed.sealedIn).toBe('de');
    expect(sealed.html).toContain('<html lang="de">');
    expect(sealed.html).toContain('Nachweis über Druck und Härtezeit');
    expect(textOf(sealed.html)).toMatch(/\d,\d\d\u00a0?\s?bar/);
    const read = await office.ask({ q: 'certificate', ref, wording: { language: 'fr', decimal: 'comma' } });
    expect(read.sealedIn).toBe('de');
    expect(read.html).toContain('<html lang="fr">');
    expect(textOf(read.html)).not.toMatch(/Härtezeit|Arbeitsdruck/);
    // Nothing of the record is touched by it: the file is verified as it was sealed.
    const { file } = await office.ask({ q: 'job-file', ref });
    const view = await office.ask({ q: 'verify', file, name: 'job.zip' });
    expect(view.findings).toEqual([]);
  });
});

describe('the certificate', () => {
  it('of practice says so at the head of each page, across it, and in its words; no client signs it', async () => {
    const { html, text } = await certificate({}, { practice: true });
    const leaves = html.split('<div class="leaf">').slice(1);
    expect(leaves).toHaveLength(4);
    for (const leaf of leaves) {
      expect(leaf).toContain('class="stripes"');
      expect(leaf).toContain('class="watermark"');
    }
    expect(html).toContain('<title>Practice certificate: ');
    expect(text).toContain('It is no record of a job and proves no repair.');
    expect(text).toContain('Seen by the trainer');
    expect(text).not.toContain('Seen by the client');
    expect(text).not.toContain(english.certificate.CERTIFICATE.title);
  });

  it('says what was repaired, how, what was held and met, with bounds, and where to check', async () => {
    const { html, text, office, ref } = await certificate({});
    for (const part of [
      'Crack at 12.4 m',
      'Practice yard, manhole P3 to P4',
      'DN 150, clay, inner diameter 150 mm',
      'Practice packer 100-150, serial PP-017',
      'batches R-1204 and H-0877',
      'Transducer 0-4 bar, serial T-2207',
      'inside the hold band, of 1 min 00 s',
      '±\u00a00.05\u00a0bar (k\u00a0=\u00a02)',
      'Seen by the client',
    ])
      expect(text.replace(/\u00a0/g, ' ')).toContain(part.replace(/\u00a0/g, ' '));
    const { sealed } = await office.ask({ q: 'record', ref });
    expect(text.replace(/ /g, '').toLowerCase()).toContain(sealed!.manifestSha256);
    expect(text.replace(/ /g, '').toLowerCase()).toContain(sealed!.fingerprint);
    // The mark on four pages, the trace, the code.
    expect(html.match(/<svg/g)).toHaveLength(6);
    expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
  });

  it('has the checklist as the job kept it behind its three pages: each answer with time and initials, the run has the last word', async () => {
    const answers = [
      { item: 'permit', how: 'done', text: '', atUtcMs: Date.UTC(2026, 3, 14, 7, 20), by: 'A.B.' },
      { item: 'cleaned', how: 'done', text: '', atUtcMs: null, by: '' },
      { item: 'gone', how: 'done', text: '', atUtcMs: null, by: 'E.F.' },
    ] as const;
    const own = {
      listId: 'list-1',
      revision: 4,
      name: 'Mill Lane <crews>',
      items: [
        { id: 'permit', at: 'arrival', text: null, safety: true, wants: 'tick', unit: '' },
        { id: 'o2', at: 'arrival', text: 'Oxygen at the opening', safety: true, wants: 'number', unit: '%' },
        { id: 'fence', at: 'air', text: 'Fence <b>set up</b>', safety: true, wants: 'tick', unit: '' },
        { id: 'sign', at: 'air', text: 'Sign at the road', safety: true, wants: 'tick', unit: '' },
        { id: 'cleaned', at: 'after', text: null, safety: false, wants: 'tick', unit: '' },
      ],
    } as const;
    const said = (item: string, text: string, how: 'done' | 'passed' | 'taken-back') =>
      ({ c: 'check', item, said: 'Words of then', safety: true, how, text, by: 'C.D.' }) as const;
    const { html, text, office, ref } = await certificate(
      { checklist: { ...own, items: [...own.items] }, answers: [...answers] },
      {
        during: async (bench) => {
          for (const command of [
            { c: 'operator', by: 'E.<b>' } as const,
            said('o2', '20.9', 'done'),
            said('fence', 'Does not apply <i>here</i>.', 'passed'),
            said('cleaned', '', 'taken-back'),
          ])
            await bench.ask({ q: 'command', command });
        },
      },
    );
    const leaf = textOf(html.split('<div class="leaf">')[4] ?? '').replaceAll('\u00a0', ' ');
    expect(leaf).toContain('Mill Lane <crews>, version 4, as the job kept it');
    expect(html).not.toMatch(/<b>set up|<i>here|<crews>/);
    expect(leaf).toMatch(
      /permit and confined-space rules seen to \(safety\) yes 2026-04-14 07:20 UTC A\.B\./,
    );
    expect(leaf).toMatch(/Oxygen at the opening \(safety\) 20\.9 % 20\d\d-\d\d-\d\d \d\d:\d\d UTC C\.D\./);
    expect(leaf).toContain('Gone on without: Does not apply <i>here</i>.');
    expect(leaf).toContain('Packer cleaned and inspected again not answered');
    expect(leaf).toContain('Item gone, no longer in the list yes time not kept E.F.');
    const { CERTIFICATE: C, EXCEPTION: X } = english.certificate;
    const spaced = text.replaceAll('\u00a0', ' ');
    expect(spaced).toContain(X.checkPassed('Fence <b>set up</b>', 'Does not apply <i>here</i>.', 'C.D.'));
    expect(spaced).toContain(`${C.present} ${C.atComputer('', 'E.<b>')}`);
    expect(spaced).toContain(X.safetyOpen('Sign at the road'));
    expect(spaced).toContain(X.unticked('Packer cleaned and inspected again'));
    const sketch = await office.ask({ q: 'sketch', ref });
    expect(sketch?.numbers?.overrides).toBe(1);
    expect(sketch?.account?.open).toContain('checks-passed');
  });

  it('its first page holds job, account, figures, trace, facts and fingerprint; both say which page they are', async () => {
    const { html, office, ref } = await certificate({});
    const spaced = (text: string) => text.replaceAll('\u00a0', ' ');
    const [first = '', second = '', third = ''] = html
      .split('<div class="leaf">')
      .slice(1)
      .map((leaf) => spaced(textOf(leaf)));
    const { numbers, account } = await office.ask({ q: 'record', ref });
    const runId = ref.runId;
    expect(first).toContain(`Record ${runId} · page 1 of 4`);
    expect(second).toContain(`Record ${runId} · page 2 of 4`);
    expect(third).toContain(`Record ${runId} · page 3 of 4`);
    expect(first).toContain('Crack at 12.4 m');
    for (const sentence of english.account.accountText(account, numbers, String))
      expect(first).toContain(spaced(sentence));
    expect(first).toContain(`Witness sample: ${english.account.witnessText(account)}`);
    expect(first).toContain(english.certificate.CERTIFICATE.fingerprintLabel);
    expect(html.match(/<div><dd>/g)).toHaveLength(4);
    expect(html.match(/<div><dt>/g)).toHaveLength(9);
    // The trace, with the temperatures in a lane of their own.
    expect(html.indexOf('°C</text>')).toBeLessThan(html.indexOf('page 2 of 4'));
  });

  it('tells what a supervisor decided, with the reason and that no seal covers it; the record’s own page does not', async () => {
    const { office, ref, html } = await certificate({});
    const leaf = (page: string) =>
      textOf(page.split('<div class="leaf">')[1] ?? '').replaceAll('\u00a0', ' ');
    expect(leaf(html)).not.toMatch(/Accepted|Rejected/);
    const decide = (status: 'released' | 'rejected' | 'open', reason: string) =>
      office.ask({ q: 'set-status', ref, status, reason, by: 'M. Berg' });
    const page = async () => leaf((await office.ask({ q: 'certificate', ref })).html);
    await decide('rejected', 'sample <soft>');
    expect(await page()).toMatch(/Rejected by M\. Berg, .* UTC\. Reason: “sample <soft>”\./);
    await decide('released', 'felt again: hard');
    const accepted = await page();
    expect(accepted).toMatch(/Accepted by M\. Berg, .* UTC\. Reason: “felt again: hard”\./);
    expect(accepted).toContain(english.certificate.CERTIFICATE.decisionNote);
    // Shown in the app it stands among the app's own styles: none of them is meant for a part of it.
    const folder = 'src/app/styles';
    const rules = readdirSync(folder)
      .filter((name) => name.endsWith('.css'))
      .map((name) => readFileSync(`${folder}/${name}`, 'utf8'))
      .join('\n');
    const { html: decided } = await office.ask({ q: 'certificate', ref });
    const classes = new Set([...decided.matchAll(/class="([^"]+)"/g)].flatMap(([, c = '']) => c.split(' ')));
    const shared = [...classes].filter((c) => new RegExp(`^\\.${c}[\\s,:{]`, 'm').test(rules));
    // Its own rule for small print says all that the app's does.
    expect(shared.filter((c) => c !== 'small')).toEqual([]);
    expect(accepted).not.toContain('<soft>');
    await decide('open', '');
    expect(await page()).not.toMatch(/Accepted|Rejected/);
  });

  it('its first page says how long the run was, at which site and pipe, and what was added since', async () => {
    const { office, ref, html } = await certificate({});
    const first = (page: string) =>
      textOf(page.split('<div class="leaf">')[1] ?? '').replaceAll('\u00a0', ' ');
    for (const part of ['run of ', 'Practice yard, manhole P3 to P4', 'DN 150, clay, inner diameter 150 mm'])
      expect(first(html)).toContain(part);
    expect(first(html)).not.toContain('Signed after the sealing, ');
    await office.ask({ q: 'add', runId: ref.runId, kind: 'correction', text: 'batch: R-8', by: 'A.B.' });
    const later = await office.ask({ q: 'certificate', ref });
    expect(first(later.html)).toContain('Signed after the sealing, 1 addition: batch: R-8');
  });

  it('escapes what people typed', async () => {
    const { html, text } = await certificate({ title: '<img src=x onerror=alert(1)>', client: '"A" & <B>' });
    expect(html).not.toContain('<img');
    expect(text).toContain('<img src=x onerror=alert(1)>');
    expect(text).toContain('"A" & <B>');
    expect(text).toContain('<b>hose & "clamp"</b>');
  });

  it('tells every exception: what was not done, and what went wrong', async () => {
    const { text } = await certificate(
      {},
      {
        during: async (bench, site) => {
          site.fault({ fault: 'unplug' });
          await bench.run(5000);
          site.fault({ fault: 'replug' });
          await bench.run(5000);
          await bench.ask({
            q: 'command',
            command: { c: 'override', what: 'no-relief', reason: 'valve on its way' },
          });
          await bench.ask({ q: 'command', command: { c: 'gauge', bar: 0.9 } });
        },
      },
    );
    for (const part of [
      'Alarm, urgent: Pressure reading lost',
      'Readings missing: The cable or port was gone (1 gap',
      'Gone on against advice (no-relief): valve on its way',
      'Dial gauge and sensor differed: 0.90',
      'The probe (sleeve) was not compared with a thermometer.',
      'Not calibrated: the pressure sensor',
      'It was not recorded that the line stayed at zero',
    ])
      expect(text.replace(/\u00a0/g, ' ')).toContain(part);
  });

  it('without a job sheet it claims nothing of the repair', async () => {
    const { text } = await certificate(null);
    expect(text).toContain(EXCEPTION.noJob);
    expect(text).not.toContain('Practice packer');
    expect(text).toContain('Packer not known');
  });

  it('without a hold floor it claims no time in a band', async () => {
    const { text } = await certificate({}, { limits: { floorBar: null, headBar: null } });
    expect(text).toContain('hold floor not known, up to 1.75');
    expect(text).toContain('inflated and not over the ceiling, of');
    expect(text).not.toContain('inside the hold band');
    expect(text).toContain(EXCEPTION.noFloor);
    expect(text).toContain(EXCEPTION.noWater);
  });

  it('a cure time that was not met is said not to be met', async () => {
    const { text } = await certificate({}, { holdS: 30 });
    expect(text).toContain('not reached within this record (cautious count)');
    expect(text).not.toMatch(/Cure time by the data sheet met/);
  });

  it('of a resin that light cures it says that nothing was judged, and what else the Setup tells', async () => {
    const setup = { heating: 'hot-air', wetness: 'wet', sharedLine: true } as const;
    const light = (await certificate({}, { curedBy: 'light', setup })).text;
    expect(light).toContain('not judged: the resin cures by light');
    expect(light).not.toMatch(/met at the coldest|not met within/);
    for (const told of [EXCEPTION.lightCured, EXCEPTION.sharedLine]) expect(light).toContain(told);
    expect(light).toContain('by hot air');
    expect(light).toContain('with water in it');
    const { text } = await certificate({}, { setup: { heating: 'unknown' } });
    expect(text).toContain(EXCEPTION.heatingUnknown);
    expect(text).not.toContain(EXCEPTION.sharedLine);
  });

  it('never says what nobody can stand by', async () => {
    const { text } = await certificate({});
    expect(text).not.toMatch(NEVER);
    const flat = (value: unknown): string =>
      typeof value === 'string'
        ? value
        : typeof value === 'function'
          ? String((value as (...a: unknown[]) => unknown)(1, 1, 1, 1, 1))
          : typeof value === 'object' && value !== null
            ? Object.values(value).map(flat).join(' ')
            : '';
    const all = flat({ ...english.certificate, heldText: heldText(1, 1, 1, 1, 1, false), EXCEPTION: null });
    const exceptions = Object.values(EXCEPTION).map((e) => (typeof e === 'string' ? e : e.toString()));
    expect(all.length).toBeGreaterThan(1500);
    expect(`${all} ${exceptions.join(' ')}`).not.toMatch(NEVER);
  });

  it('the same record gives the same bytes', async () => {
    const { office, ref, html } = await certificate({});
    const again = (await office.ask({ q: 'certificate', ref })).html;
    expect(again).toBe(html);
  });
});

describe('the certificate in another language', () => {
  /** What people typed, names of programs, and what the simulated site is called. */
  const DATA = [
    'Crack at 12.4 m',
    'A.B., C.D.',
    'A.B.',
    'P-001',
    'PP-017',
    'R-1204',
    'H-0877',
    'T-2207',
    'K-01',
    'K-02',
    'K-03',
    'Quick resin of the test',
    '<b>hose & "clamp"</b>',
    'valve on its way',
    'test 1',
    ...Object.values(english.demo.DEMO_NAMES),
  ];
  const wording = { language: PSEUDO, decimal: 'comma' } as const;

  it('is that of its record, wherever it is made and verified; nothing of it comes from elsewhere', async () => {
    const office = createOffice({ catalogueOf: (w) => loadCatalogue(w, WITH_PSEUDO) });
    await office.keepJob({});
    const runId = await office.record({
      during: async (bench, site) => {
        site.fault({ fault: 'unplug' });
        await bench.run(5000);
        site.fault({ fault: 'replug' });
        await bench.run(5000);
        const what = 'stage:hold';
        await bench.ask({ q: 'command', command: { c: 'override', what, reason: 'valve on its way' } });
        await bench.ask({ q: 'command', command: { c: 'gauge', bar: 0.9 } });
      },
    });
    await office.ask({ q: 'seal', runId, wording });
    const ref = { kind: 'run', runId } as const;
    const { html } = await office.ask({ q: 'certificate', ref });
    expect(html).toContain(`<html lang="${PSEUDO}">`);
    const labels = [...html.matchAll(/<(?:text|title)[^>]*>([^<]*)<|aria-label="([^"]*)"/g)].map(
      (m) => m[1] ?? m[2],
    );
    const told = textOf(`${html} ${labels.join(' ')}`);
    const fingerprints = [...told.matchAll(/(?:[0-9A-F]{4} ){15}[0-9A-F]{4}/g)].map((m) => m[0]);
    expect(untranslated(told, [...DATA, ...fingerprints, runId])).toBe('');
    expect(told.replaceAll('\u00a0', ' ')).toMatch(/1,\d\d bar/);
    expect(told).not.toMatch(/\d\.\d\d\u00a0bar/);

    // The same record under another tablet's words: its file is the same to the byte.
    const { file } = await office.ask({ q: 'job-file', ref });
    const view = await office.ask({ q: 'verify', file, name: 'job.zip' });
    const derived = (remarks: typeof view.remarks) =>
      remarks.filter((r) => !['logged', 'no-witness', 'gaps'].includes(r.r));
    expect([view.verdict, view.findings, derived(view.remarks)]).toEqual(['valid', [], []]);

    // A program without this language holds the papers against the signed sums, and says so.
    const without = createOffice();
    const there = await without.ask({ q: 'verify', file, name: 'job.zip' });
    expect(there.verdict).toBe('unknown-signer');
    expect(derived(there.remarks)).toEqual([
      { r: 'not-derived', file: 'CHECK.txt' },
      { r: 'not-derived', file: 'certificate.html' },
    ]);
    await expect(without.ask({ q: 'certificate', ref: { kind: 'opened' } })).rejects.toMatchObject({
      code: 'language-future',
    });
  });
});
