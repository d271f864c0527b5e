import { type Accessor, createMemo, createSignal, onCleanup } from 'solid-js';
import { type Bench, createBench, introduce, type ScaleOf, skipLines, takeLine } from '../../bench/bench.ts';
import type { Finding } from '../../bench/findings.ts';
import { findings } from '../../bench/judge.ts';
import type { HeardLine } from '../../link/line-log.ts';
import type { Services } from '../context.ts';
import { planOf } from '../setup-of.ts';

/** Looked at three times a second: what is read there is numbers, no course. */
const LOOK_MS = 330;
/** Newest lines that are shown. */
const SHOWN = 40;

export interface BenchState {
  /** The bench as it is now; read it where `version` is read. */
  bench(): Bench;
  readonly findings: Accessor<readonly Finding[]>;
  /** Newest first. */
  readonly lines: Accessor<readonly HeardLine[]>;
  /** Does something with the bench, and shows what comes of it. */
  change(work: (bench: Bench) => void): void;
  /** What was found is forgotten, the connection stays. */
  again(): void;
}

/** Looks at the line while no run is going on. What it asks for disturbs nothing. */
export function createBenchState(app: Services): BenchState {
  const scaleOf: ScaleOf = (device) => planOf(app, null, 1, device).setup;
  const [version, setVersion] = createSignal(0);
  const [lines, setLines] = createSignal<readonly HeardLine[]>([]);
  let bench = createBench(scaleOf);
  let from = 0;
  let connection = 0;
  let looking = false;

  const begin = () => {
    bench = createBench(scaleOf);
    setVersion((v) => v + 1);
  };
  const look = async () => {
    if (looking || app.live.run() !== null) return;
    looking = true;
    try {
      const heard = await app.ask({ q: 'bench-lines', from });
      from = heard.next;
      if (heard.connection !== connection) {
        connection = heard.connection;
        setLines([]);
        begin();
      } else if (heard.missed > 0) skipLines(bench);
      // Connected before this page was opened: its hello has long passed.
      const link = app.live.link();
      const said = heard.lines.some((l) => 'frame' in l && l.frame.t === 'H');
      if (link?.hello != null && !said) introduce(bench, link.hello, link.channels);
      for (const line of heard.lines) takeLine(bench, line);
      if (heard.lines.length === 0) return;
      setLines((before) => [...[...heard.lines].reverse(), ...before].slice(0, SHOWN));
      setVersion((v) => v + 1);
    } finally {
      looking = false;
    }
  };
  // One that failed is followed by the next; a silent engine is told by the page itself.
  const timer = setInterval(() => void look().catch(() => undefined), LOOK_MS);
  onCleanup(() => clearInterval(timer));

  return {
    bench() {
      version();
      return bench;
    },
    findings: createMemo(() => {
      version();
      return findings(bench, app.live.link()?.rateHz ?? null);
    }),
    lines,
    change(work) {
      work(bench);
      setVersion((v) => v + 1);
    },
    again: begin,
  };
}
