import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { keepJob } from '../stand/repair.ts';
import { openStand } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, STORIES, type StoryName, storiesOf } from '../stand/states.ts';
import { PAGE_STORIES, PAGES, preparePages } from './pages.ts';
import { liveName, looksOf, looksWanted, PAGE_LOOKS, pageName, wantedOf } from './plan.ts';
import { keep, shoot } from './shots.ts';

/**
 * npm run pictures: pictures of the running app in all states, sizes and themes, into docs/pictures. Options:
 * --states a,b|all  --sizes 1180x820,…|all  --themes dark,…|all  --pages  --out FOLDER  --app FOLDER (the built app)
 */

const { values } = parseArgs({
  options: {
    states: { type: 'string' },
    sizes: { type: 'string' },
    themes: { type: 'string' },
    pages: { type: 'boolean' },
    out: { type: 'string', default: 'docs/pictures' },
    app: { type: 'string', default: 'dist' },
  },
});
const wanted = wantedOf(values);
if (!existsSync(`${values.app}/index.html`)) {
  console.error(`pictures: ${values.app} holds no built app; run npm run build first`);
  process.exit(2);
}

const stand = await openStand({ folder: values.app });
let made = 0;
let bytes = 0;
const failed: string[] = [];

try {
  await keepJob(stand);
  const stories = new Set<StoryName>([...storiesOf(wanted.states), ...(wanted.pages ? PAGE_STORIES : [])]);
  const runs = new Map<StoryName, string>();
  for (const story of stories) {
    const from = performance.now();
    const left = new Set<LiveState>(STORIES[story].filter((state) => wanted.states.includes(state)));
    try {
      const runId = await play(stand, story, async (state) => {
        if (!left.has(state)) return;
        for (const look of looksWanted(looksOf(state), wanted)) {
          bytes += await keep(values.out, liveName(state, look), await shoot(stand, look));
          made++;
        }
        left.delete(state);
        // The pages want whole runs.
        if (left.size === 0 && !wanted.pages) throw ENOUGH;
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
    const open = await preparePages(stand, runs);
    for (const look of looksWanted(PAGE_LOOKS, wanted)) {
      // Before the page is opened: choosing a theme leads over the settings.
      await stand.theme(look.theme);
      for (const name of PAGES) {
        await open(name);
        bytes += await keep(values.out, pageName(name, look), await shoot(stand, look));
        made++;
      }
    }
  }
} finally {
  await stand.close();
}
for (const fault of stand.faults) console.log(`the page said: ${fault}`);
console.log(`${made} pictures, ${(bytes / 1e6).toFixed(2)} MB in ${values.out}`);
process.exit(failed.length === 0 ? 0 : 1);
