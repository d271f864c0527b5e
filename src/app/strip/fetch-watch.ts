import { loadWords } from '../../words/chosen.ts';

/** Code of the strip's parts that speak of the watch, behind its words: not part of the start. */
export async function fetchWatch() {
  await loadWords('watch');
  const [{ StripState }, { AlarmBar }] = await Promise.all([
    import('./StripState.tsx'),
    import('./AlarmBar.tsx'),
  ]);
  return { StripState, AlarmBar };
}
