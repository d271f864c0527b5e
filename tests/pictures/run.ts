import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { keepJob } from '../stand/repair.ts';
import { openStand } from '../stand/stand.ts';
import { takeGuide } from './guide-run.ts';
import { picturesOfLanguages } from './languages.ts';
import { FURTHER_PAGES, PAGES } from './pages.ts';
import { languagesOf, liveName, looksOf, looksWanted, pageLooks, pageName, wantedOf } from './plan.ts';
import { keep, shoot } from './shots.ts';
import { takeAll } from './take.ts';

/**
 * npm run pictures: pictures of the running app in all states, into docs/pictures. Options:
 * --states a,b|all  --stories a,b  --sizes 1180x820,…|all  --themes dark,…|all  --pages  --out FOLDER
 * --whole (with the sizes and themes that are not kept)  --full (pages with what is below the window)
 * --app FOLDER (the built app)  --only a,b (of the pages, these)
 * --languages de,es,fr|all (languages.ts: every screen in them, measured; --out FOLDER keeps each picture in its own size,
 * --sheets FOLDER says where the contact sheets go)
 * --guide (those of docs/guide.md alone)
 */

const { values } = parseArgs({
  options: {
    states: { type: 'string' },
    stories: { type: 'string' },
    sizes: { type: 'string' },
    themes: { type: 'string' },
    pages: { type: 'boolean' },
    only: { type: 'string' },
    whole: { type: 'boolean' },
    full: { type: 'boolean' },
    guide: { type: 'boolean' },
    languages: { type: 'string' },
    sheets: { type: 'string', default: 'docs/pictures/languages' },
    out: { type: 'string' },
    app: { type: 'string', default: 'dist' },
  },
});
const only = values.only?.split(',') ?? null;
// The bench stays connected: it comes last.
const ALL_PAGES = [...PAGES.filter((name) => name !== 'bench'), ...FURTHER_PAGES, 'bench' as const];
const strange = only?.find((name) => !(ALL_PAGES as readonly string[]).includes(name));
if (strange !== undefined) {
  console.error(`pictures: no page is called ${strange}; there are ${ALL_PAGES.join(', ')}`);
  process.exit(2);
}
if (!existsSync(`${values.app}/index.html`)) {
  console.error(`pictures: ${values.app} holds no built app; run npm run build first`);
  process.exit(2);
}
const { app, out = 'docs/pictures' } = values;

if (values.languages !== undefined) {
  const failed = await picturesOfLanguages({
    languages: languagesOf(values.languages),
    app,
    sheets: values.sheets,
    out: values.out ?? null,
    full: values.full ?? false,
    pages: ALL_PAGES.filter((name) => only?.includes(name) ?? true),
    live: only === null,
  });
  process.exit(failed === 0 ? 0 : 1);
}

const pagesWanted = only === null ? PAGES : ALL_PAGES.filter((name) => only.includes(name));
const wanted = wantedOf(only === null ? values : { ...values, pages: true });
const stand = await openStand({ folder: app });
let made = 0;
let bytes = 0;
let failed: string[] = [];
/** Pictures are made small while the next ones are taken. */
const small: Promise<void>[] = [];
const save = (name: string, png: Buffer): void => {
  made++;
  small.push(
    keep(out, name, png).then((n) => {
      bytes += n;
    }),
  );
};

try {
  if (values.guide === true) failed = await takeGuide(stand, save);
  else {
    await keepJob(stand);
    failed = await takeAll(stand, {
      states: wanted.states,
      async atState(state) {
        for (const look of looksWanted(looksOf(state, wanted.whole), wanted))
          save(liveName(state, look), await shoot(stand, look));
      },
      pages: wanted.pages ? pagesWanted : [],
      looks: looksWanted(pageLooks(wanted.whole), wanted),
      async atPage(name, look) {
        save(pageName(name, look), await shoot(stand, look, values.full));
      },
    });
  }
  await Promise.all(small);
} finally {
  await stand.close();
}
for (const fault of stand.faults) console.log(`the page said: ${fault}`);
console.log(`${made} pictures, ${(bytes / 1e6).toFixed(2)} MB in ${out}`);
process.exit(failed.length === 0 ? 0 : 1);
