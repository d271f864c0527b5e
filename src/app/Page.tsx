import { createResource, lazy, Match, Show, Suspense, Switch } from 'solid-js';
import { VERSION } from '../engine/version.ts';
import { Jobs } from '../screens/jobs/Jobs.tsx';
import type { Route } from '../screens/route.ts';
import { Loading } from '../widgets/Loading.tsx';
import { loadWords } from '../words/chosen.ts';

// The jobs come with the start, as the way to everything else. The code of every other page is a file of its own,
// from the service worker where it stands, so that it is there without a network too.
/** Code of a page, behind the words that it shows. */
async function worded<T>(code: () => Promise<T>): Promise<T> {
  await loadWords('further');
  return code();
}

const Sheet = lazy(async () => ({
  default: (await worded(() => import('../screens/sheet/Sheet.tsx'))).Sheet,
}));
const Documents = lazy(async () => ({
  default: (await worded(() => import('../screens/documents/Documents.tsx'))).Documents,
}));
const Bench = lazy(async () => ({
  default: (await worded(() => import('../screens/bench/Bench.tsx'))).Bench,
}));
const Settings = lazy(async () => ({
  default: (await worded(() => import('../screens/settings/Settings.tsx'))).Settings,
}));
const About = lazy(async () => ({
  default: (await worded(() => import('../screens/about/About.tsx'))).About,
}));
const Review = lazy(async () => ({
  default: (await worded(() => import('../screens/review/Review.tsx'))).Review,
}));
const Archive = lazy(async () => ({
  default: (await worded(() => import('../screens/archive/Archive.tsx'))).Archive,
}));
const Compare = lazy(async () => ({
  default: (await worded(() => import('../screens/archive/Compare.tsx'))).Compare,
}));
const Backup = lazy(async () => ({
  default: (await worded(() => import('../screens/backup/Backup.tsx'))).Backup,
}));
const Office = lazy(async () => ({
  default: (await worded(() => import('../screens/office/Office.tsx'))).Office,
}));
const WitnessLog = lazy(async () => ({
  default: (await worded(() => import('../screens/witness/WitnessLog.tsx'))).WitnessLog,
}));
const Verify = lazy(async () => ({
  default: (await worded(() => import('../screens/verify/Verify.tsx'))).Verify,
}));
const Practice = lazy(async () => ({
  default: (await worded(() => import('../screens/practice/Practice.tsx'))).Practice,
}));
const DebriefPage = lazy(async () => ({
  default: (await worded(() => import('../screens/practice/Debrief.tsx'))).DebriefPage,
}));
const Card = lazy(async () => ({
  default: (await worded(() => import('../screens/card/Card.tsx'))).Card,
}));
const RecordPage = lazy(async () => ({
  default: (await worded(() => import('../screens/verify/Record.tsx'))).RecordPage,
}));
const Certificate = lazy(async () => ({
  default: (await worded(() => import('../screens/certificate/Certificate.tsx'))).Certificate,
}));

/**
 * The code of the live page. It is not part of the start, but fetched right behind it (start.tsx): where a run is open
 * or one is begun the page must come up without a wait.
 */
export async function fetchLive(): Promise<typeof import('../screens/live/Live.tsx')> {
  await loadWords('watch');
  return import('../screens/live/Live.tsx');
}

/** Without a Suspense boundary: data on their way must never take the pressure off the screen. */
export function LivePage(props: { jobId: string | null }) {
  const [code] = createResource(fetchLive);
  return (
    <Show when={code()} fallback={<Loading />}>
      {(fetched) => {
        const { Live } = fetched();
        return <Live jobId={props.jobId} />;
      }}
    </Show>
  );
}

/** The page that the address names, but for the live one. */
export function Page(props: { route: Route }) {
  const as = <P extends Route['page']>(page: P) =>
    props.route.page === page ? (props.route as Extract<Route, { page: P }>) : undefined;
  return (
    <>
      {/* Not under Suspense: data on their way must never take the way to the pressure off the screen. */}
      <Show when={as('jobs')}>
        <Jobs />
      </Show>
      <Suspense fallback={<Loading />}>
        <Switch>
          <Match when={as('sheet')} keyed>
            {(r) => <Sheet jobId={r.jobId} />}
          </Match>
          <Match when={as('review')} keyed>
            {(r) => <Review runId={r.runId} />}
          </Match>
          <Match when={as('archive')}>
            <Archive />
          </Match>
          <Match when={as('compare')} keyed>
            {(r) => <Compare ids={r.ids} />}
          </Match>
          <Match when={as('verify')} keyed>
            {(r) => <Verify expected={r.expected ?? ''} />}
          </Match>
          <Match when={as('record')} keyed>
            {(r) => <RecordPage id={r.id} />}
          </Match>
          <Match when={as('certificate')} keyed>
            {(r) => <Certificate id={r.id} />}
          </Match>
          <Match when={as('backup')}>
            <Backup />
          </Match>
          <Match when={as('office')}>
            <Office />
          </Match>
          <Match when={as('log')}>
            <WitnessLog />
          </Match>
          <Match when={as('settings')}>
            <Settings />
          </Match>
          <Match when={as('documents')} keyed>
            {(r) => <Documents kind={r.kind} id={r.id} />}
          </Match>
          <Match when={as('bench')} keyed>
            {(r) => <Bench id={r.id} />}
          </Match>
          <Match when={as('practice')}>
            <Practice />
          </Match>
          <Match when={as('debrief')} keyed>
            {(r) => <DebriefPage id={r.runId} />}
          </Match>
          <Match when={as('card')} keyed>
            {(r) => <Card jobId={r.jobId} />}
          </Match>
          <Match when={as('about')}>
            <About version={VERSION} />
          </Match>
        </Switch>
      </Suspense>
    </>
  );
}
