import { createMemo, createSignal, For, Show } from 'solid-js';
import { Key } from '../../widgets/Key.tsx';

import { JOBS } from '../../words/jobs.ts';
import { useServices } from '../context.ts';
import { type PackerLeft, packersLeft } from '../packers-left.ts';
import { AgainstReading } from './AgainstReading.tsx';
import { leftText } from './left-text.ts';
import { pressedText } from './pressed-text.ts';

/**
 * What may be full, before anything else that is to be done: what was seen last of it, and the way to say that it is empty.
 * The word of somebody who has looked; so the key is held.
 */
export function MayBeFull() {
  const app = useServices();
  const left = createMemo(() => packersLeft(app));
  const ids = createMemo(() => left().map((p) => p.runId), [], { equals: (a, b) => a.join() === b.join() });
  const of = (runId: string): PackerLeft | undefined => left().find((p) => p.runId === runId);
  const empty = ({ runId, title }: PackerLeft) => {
    setAsked(null);
    app.ask({ q: 'packer-empty', runId, title }).catch(app.fail);
  };
  const [asked, setAsked] = createSignal<string | null>(null);
  const contradicts = () => pressedText(app.live.view(), app.units());
  const say = (packer: PackerLeft) => (contradicts() === null ? empty(packer) : setAsked(packer.runId));
  return (
    <Show when={ids().length > 0}>
      <div class="stack" data-testid="maybe-full">
        <For each={ids()}>
          {(runId) => (
            <Show when={of(runId)}>
              {(packer) => (
                <section class="note strong stack">
                  <p role="alert">
                    <strong>{leftText(packer(), app.units())}</strong>{' '}
                    {packer().isOpen ? JOBS.maybeFullTodo : JOBS.leftTodo}
                    <Show when={packer().title !== ''}>
                      {' '}
                      <span class="small">({packer().title})</span>
                    </Show>
                  </p>
                  <Show
                    when={asked() === runId && contradicts()}
                    fallback={
                      <Key
                        class="wide"
                        means={`empty ${runId}`}
                        hold
                        data-testid={`say-empty-${runId}`}
                        onPress={() => say(packer())}
                      >
                        <span>{JOBS.saidEmpty}</span>
                        <small>{JOBS.hold}</small>
                      </Key>
                    }
                  >
                    {(reads) => (
                      <AgainstReading
                        reads={reads()}
                        means={runId}
                        onBack={() => setAsked(null)}
                        onSay={() => empty(packer())}
                      />
                    )}
                  </Show>
                </section>
              )}
            </Show>
          )}
        </For>
      </div>
    </Show>
  );
}
