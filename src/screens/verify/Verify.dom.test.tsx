import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { RequestError } from '../../engine/worker/request-error.ts';
import type { EvidenceRequest } from '../../evidence/messages.ts';
import { EVIDENCE as E, reservedText, VERDICT } from '../../words/evidence.ts';
import { type Services, ServicesContext } from '../context.ts';
import { Verify } from './Verify.tsx';

afterEach(cleanup);

/** The page over an evidence room of which each answer is given by hand. */
function bench() {
  type Asked = {
    readonly request: EvidenceRequest;
    readonly tell: (share: number) => void;
    readonly answer: (value: unknown) => void;
    readonly refuse: (code: string) => void;
  };
  const asked: Asked[] = [];
  const failed: unknown[] = [];
  const evidence = (request: EvidenceRequest, tell: (share: number) => void = () => undefined) =>
    new Promise((answer, reject) => {
      const refuse = (code: string) => reject(new RequestError(code, ''));
      asked.push({ request, tell, answer, refuse });
    });
  const services = { evidence, fail: (cause: unknown) => failed.push(cause) };
  const { unmount } = render(() => (
    <ServicesContext.Provider value={services as unknown as Services}>
      <Verify expected="" />
    </ServicesContext.Provider>
  ));
  const choose = (name: string) =>
    fireEvent.change(screen.getByTestId('verify-file'), { target: { files: [new File(['x'], name)] } });
  return { asked, failed, choose, unmount };
}

/** Whatever was settled is told. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 0));
const asks = (asked: readonly { readonly request: EvidenceRequest }[]) => asked.map((a) => a.request.q);
const VIEW = {
  verdict: 'valid',
  findings: [],
  remarks: [],
  reserved: null,
  additions: [],
  name: 'b.zip',
  bytes: 1,
};

it('cancelled in the first look or behind it: empty at once, with a sentence, whatever the worker still says', async () => {
  const { asked, failed, choose } = bench();
  choose('a.zip');
  expect(screen.getByTestId('cancel-verify')).toBeTruthy();
  fireEvent.click(screen.getByTestId('cancel-verify'));
  // Nothing was answered yet.
  expect(screen.queryByTestId('cancel-verify')).toBeNull();
  expect(screen.getByTestId('verify-cancelled').textContent).toBe(E.cancelled);
  expect((screen.getByTestId('verify-file').previousSibling as HTMLButtonElement).disabled).toBe(false);
  asked[0]!.refuse('cancelled');
  await settled();
  expect(asks(asked)).toEqual(['verify-first', 'cancel']);

  choose('b.zip');
  expect(screen.queryByTestId('verify-cancelled')).toBeNull();
  asked[2]!.answer({ verdict: 'valid', findings: [] });
  await settled();
  expect(screen.getByTestId('first-look')).toBeTruthy();
  asked[3]!.tell(0.4);
  fireEvent.click(screen.getByTestId('cancel-verify'));
  expect(screen.queryByTestId('first-look')).toBeNull();
  asked[3]!.tell(0.5);
  asked[3]!.answer(VIEW);
  await settled();
  expect(screen.queryByTestId('verdict')).toBeNull();
  expect(screen.queryByTestId('cancel-verify')).toBeNull();
  expect(screen.getByTestId('verify-cancelled')).toBeTruthy();
  expect(failed).toEqual([]);
});

it('another file dropped meanwhile, or the page left: the work on the first one is ended', async () => {
  const { asked, choose, unmount } = bench();
  choose('a.zip');
  choose('b.zip');
  expect(asks(asked)).toEqual(['verify-first', 'cancel', 'verify-first']);
  asked[0]!.refuse('cancelled');
  asked[2]!.answer({ verdict: 'valid', findings: [] });
  await settled();
  expect(asks(asked).at(-1)).toBe('verify');
  asked[3]!.answer(VIEW);
  await settled();
  expect(screen.getByTestId('verdict').textContent).toContain(VERDICT.valid.word);
  choose('c.zip');
  unmount();
  expect(asks(asked).at(-1)).toBe('cancel');
});

it('what a good verdict does not vouch for stands with it', async () => {
  const { asked, choose } = bench();
  choose('a.zip');
  asked[0]!.answer({ verdict: 'valid', findings: [] });
  await settled();
  const reserved = {
    unjudged: true,
    failed: true,
    otherwise: ['certificate.html'],
    notMade: [],
    apart: ['device'],
  } as const;
  asked[1]!.answer({ ...VIEW, reserved });
  await settled();
  const told = screen.getAllByTestId('reserved').map((e) => e.textContent);
  expect(told).toEqual(reservedText(reserved));
  expect(told).toHaveLength(4);
  expect(told[2]).toContain('certificate.html');
});
