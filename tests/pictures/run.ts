import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { keepJob } from '../stand/repair.ts';
import { openStand } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, STORIES, type StoryName, storiesOf } from '../stand/states.ts';
import { isWithoutRuns, openWithoutRuns, PAGE_STORIES, PAGES, preparePages } from './pages.ts';
import { liveName, looksOf, looksWanted, pageLooks, pageName, wantedOf } from './plan.ts';
import { keep, shoot } from './shots.ts';

/**
 * npm run pictures: pictures of the running app in all states, into docs/pictures. Options:
 * --states a,b|all  --stories a,b  --sizes 1180x820,…|all  --themes dark,…|all  --pages  --out FOLDER
 * --whole (with the sizes and themes that are not kept)  --full (pages with what is below the window)
 * --app FOLDER (the built app)  --only a,b (of the pages, these)
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
    out: { type: 'string', default: 'docs/pictures' },
    app: { type: 'string', default: 'dist' },
  },
});
const only = values.only?.split(',') ?? null;
const strange = only?.find((name) => !(PAGES as readonly string[]).includes(name));
if (strange !== undefined) {
  console.error(`pictures: no page is called ${strange}; there are ${PAGES.join(', ')}`);
  process.exit(2);
}
const pagesWanted = PAGES.filter((name) => only?.includes(name) ?? true);
const wanted = wantedOf(only === null ? values : { ...values, pages: true });
/** Whole runs stand behind most pages. */
const runsWanted = wanted.pages && !pagesWanted.every(isWithoutRuns);
if (!existsSync(`${values.app}/index.html`)) {
  console.error(`pictures: ${values.app} holds no built app; run npm run build first`);
  process.exit(2);
}

const stand = await openStand({ folder: values.app });
let made = 0;
let bytes = 0;
const failed: string[] = [];
/** Pictures are made small while the next ones are taken. */
const small: Promise<void>[] = [];
const save = (name: string, png: Buffer): void => {
  made++;
  small.push(
    keep(values.out, name, png).then((n) => {
      bytes += n;
    }),
  );
};

try {
  await keepJob(stand);
  const stories = new Set<StoryName>([...storiesOf(wanted.states), ...(runsWanted ? PAGE_STORIES : [])]);
  const runs = new Map<StoryName, string>();
  for (const story of stories) {
    const from = performance.now();
    const left = new Set<LiveState>(STORIES[story].filter((state) => wanted.states.includes(state)));
    try {
      const runId = await play(stand, story, async (state) => {
        if (!left.has(state)) return;
        for (const look of looksWanted(looksOf(state, wanted.whole), wanted))
          save(liveName(state, look), await shoot(stand, look));
        left.delete(state);
        // The pages want whole runs.
        if (left.size === 0 && !runsWanted) throw ENOUGH;
      });
      runs.set(story, runId);
    } catch (error) {
      // A story that does not come to its end tells where it stuck; the others are made all the same.
      failed.push(`${story}: ${error instanceof Error ? error.message : String(error)}`);
      console.error(failed.at(-1));
      await stand.restart();
    }
    console.log(`${story}: ${((performance.now() - from) / 1000).toFixed(0)} s`);
  }
  if (wanted.pages) {
    const from = performance.now();
    const open = runsWanted
      ? await preparePages(stand, runs)
      : async (name: (typeof PAGES)[number]) => {
          if (isWithoutRuns(name)) await openWithoutRuns(stand, name);
        };
    const looks = looksWanted(pageLooks(wanted.whole), wanted);
    for (const theme of new Set(looks.map((look) => look.theme))) {
      // Before a page is opened: choosing a theme leads over the settings.
      await stand.theme(theme);
      for (const name of pagesWanted)
        try {
          for (const look of looks.filter((l) => l.theme === theme)) {
            // A drawing is made for the window that the page is opened in.
            await stand.page.setViewportSize({ ...look.size });
            await open(name);
            save(pageName(name, look), await shoot(stand, look, values.full));
          }
        } catch (error) {
          failed.push(`${name}: ${error instanceof Error ? error.message : String(error)}`);
          console.error(failed.at(-1));
        }
    }
    console.log(`pages: ${((performance.now() - from) / 1000).toFixed(0)} s`);
  }
  await Promise.all(small);
} finally {
  await stand.close();
}
for (const fault of stand.faults) console.log(`the page said: ${fault}`);
console.log(`${made} pictures, ${(bytes / 1e6).toFixed(2)} MB in ${values.out}`);
process.exit(failed.length === 0 ? 0 : 1);
