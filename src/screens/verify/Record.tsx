import { createResource, Show } from 'solid-js';
import { refOf } from '../../evidence/messages.ts';
import { EVIDENCE as E, progressText, VERDICT } from '../../words/evidence.ts';
import { REVIEW } from '../../words/review.ts';
import { failed, useServices } from '../context.ts';
import { Reviewed } from '../review/Review.tsx';

/** A sealed file from elsewhere, to look at only. */
export function RecordPage(props: { id: string }) {
  const app = useServices();
  const source = () => refOf(props.id);
  const [record] = createResource(source, (ref) => app.evidence({ q: 'record', ref }).catch(failed(app)));
  return (
    <div class="page review">
      <Show
        when={record()}
        fallback={
          <Show when={!record.loading} fallback={<p role="status">{progressText(E.checking, 0)}</p>}>
            <h1>{REVIEW.title}</h1>
            <p>{REVIEW.missing}</p>
            <a class="button" href="#/verify">
              {E.verifyTitle}
            </a>
          </Show>
        }
      >
        {(r) => (
          <>
            <p class="note strong" data-testid="record-verdict" data-verdict={r().verdict ?? ''}>
              {E.readOnly} <strong>{VERDICT[r().verdict ?? 'unknown-signer'].word}.</strong>{' '}
              {VERDICT[r().verdict ?? 'unknown-signer'].means}{' '}
              {r().verdict === 'changed' || r().verdict === 'incomplete' ? E.changedNote : ''}
            </p>
            <Reviewed
              detail={r().detail}
              source={source()}
              known={r()}
              readWindow={(fromS, toS, points) =>
                app.evidence({ q: 'record-window', ref: source(), fromS, toS, points })
              }
            />
          </>
        )}
      </Show>
    </div>
  );
}
