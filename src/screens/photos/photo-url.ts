import { type Accessor, createResource, createSignal, onCleanup } from 'solid-js';
import type { RecordRef } from '../../evidence/messages.ts';
import { useServices } from '../context.ts';

/** An address of a photograph for as long as its picture is shown; null: on its way, 'gone': it is not there. */
export function createPhotoUrl(
  sha256: Accessor<string>,
  ref: Accessor<RecordRef | undefined>,
): Accessor<string | 'gone' | null> {
  const app = useServices();
  const [url, setUrl] = createSignal<string | null>(null);
  let held: string | null = null;
  let over = false;
  const letGo = () => {
    if (held !== null) URL.revokeObjectURL(held);
    held = null;
  };
  const [asked] = createResource(
    () => ({ sha256: sha256(), ref: ref() }),
    async ({ sha256, ref }): Promise<'there' | 'gone'> => {
      const wanted = { q: 'photo', sha256, ...(ref === undefined ? {} : { ref }) } as const;
      const blob = await app.evidence(wanted).catch(() => null);
      letGo();
      if (blob === null || over) return 'gone';
      held = URL.createObjectURL(blob);
      setUrl(held);
      return 'there';
    },
  );
  onCleanup(() => {
    over = true;
    letGo();
  });
  return () => (asked.latest === 'gone' ? 'gone' : url());
}
