import { Key } from '../../widgets/Key.tsx';
import { JOBS } from '../../words/jobs.ts';

/**
 * A packer was said to be empty, and the newest reading says something else: both are named, and the word is given once more
 * by a key of its own.
 */
export function AgainstReading(props: {
  /** What the line reads, with its unit. */
  readonly reads: string;
  /** Tells the key apart from another packer's. */
  readonly means: string;
  onSay(): void;
  onBack(): void;
}) {
  return (
    <div class="stack" data-testid="against-reading">
      <p class="note strong" role="alert">
        {JOBS.lineReads(props.reads)}
      </p>
      <button type="button" class="button wide" data-testid="not-sure" onClick={() => props.onBack()}>
        {JOBS.notSure}
      </button>
      <Key
        class="wide"
        means={`against ${props.means}`}
        hold
        data-testid="say-against"
        onPress={() => props.onSay()}
      >
        <span>{JOBS.emptyAllTheSame}</span>
        <small>{JOBS.hold}</small>
      </Key>
    </div>
  );
}
