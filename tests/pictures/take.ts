import type { Stand } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, STORIES, type StoryName, storiesOf } from '../stand/states.ts';
import { isWithoutRuns, openWithoutRuns, PAGE_STORIES, type PageName, preparePages } from './pages.ts';
import type { Look } from './plan.ts';

/** Plays the stories of the wanted states and opens the wanted pages; whoever asked takes pictures of them there. */
export interface Taking {
  readonly states: readonly LiveState[];
  /** Called at each of those states, while time stands still. */
  atState(state: LiveState): Promise<void>;
  readonly pages: readonly PageName[];
  readonly looks: readonly Look[];
  /** Called at each page in each of those looks. */
  atPage(name: PageName, look: Look): Promise<void>;
}

/** @returns what did not come to its end, in words; the rest is taken all the same */
export async function takeAll(stand: Stand, taking: Taking): Promise<string[]> {
  const { states, pages, looks } = taking;
  const failed: string[] = [];
  const fail = (what: string, error: unknown) => {
    failed.push(`${what}: ${error instanceof Error ? error.message : String(error)}`);
    console.error(failed.at(-1));
  };
  const timed = async (what: string, work: () => Promise<void>) => {
    const from = performance.now();
    await work();
    console.log(`${what}: ${((performance.now() - from) / 1000).toFixed(0)} s`);
  };
  /** Whole runs stand behind most pages. */
  const runsWanted = !pages.every(isWithoutRuns);
  const runs = new Map<StoryName, string>();
  for (const story of new Set<StoryName>([...storiesOf(states), ...(runsWanted ? PAGE_STORIES : [])]))
    await timed(story, async () => {
      const left = new Set<LiveState>(STORIES[story].filter((state) => states.includes(state)));
      try {
        const runId = await play(stand, story, async (state) => {
          if (!left.delete(state)) return;
          await taking.atState(state);
          // The pages want whole runs.
          if (left.size === 0 && !runsWanted) throw ENOUGH;
        });
        runs.set(story, runId);
      } catch (error) {
        // A story that does not come to its end tells where it stuck; the others are made all the same.
        fail(story, error);
        await stand.restart();
      }
    });
  if (pages.length > 0)
    await timed('pages', async () => {
      const open = runsWanted
        ? await preparePages(stand, runs)
        : async (name: PageName) => {
            if (isWithoutRuns(name)) await openWithoutRuns(stand, name);
          };
      for (const theme of new Set(looks.map((look) => look.theme))) {
        // Before a page is opened: choosing a theme leads over the settings.
        await stand.theme(theme);
        for (const name of pages)
          try {
            for (const look of looks.filter((l) => l.theme === theme)) {
              // A drawing is made for the window that the page is opened in.
              await stand.page.setViewportSize({ ...look.size });
              await open(name);
              await taking.atPage(name, look);
            }
          } catch (error) {
            fail(name, error);
          }
      }
    });
  return failed;
}
