/**
 * What passes between the page and a worker: numbered requests, each answered exactly once, how far a long one has
 * come, and news that nobody asked for. Plain data only. Each worker has a contract of its own.
 */
export interface Contract {
  /** What can be asked, told apart by `q`. */
  readonly request: { readonly q: string };
  /** What is answered, by `q`. */
  readonly answers: object;
  /** Why a request may be refused; each code has its words in the catalogue. */
  readonly refusal: string;
  /** What is told unasked, told apart by `m`; never, where everything is asked for. */
  readonly news: { readonly m: string };
}

export type RequestName<C extends Contract> = C['request']['q'];

export type AnswerTo<C extends Contract, Q extends RequestName<C>> = C['answers'][Q & keyof C['answers']];

/** Any worker may refuse with these: it was asked something that it does not know, or it failed. */
export type RefusalCode<C extends Contract> = C['refusal'] | 'bad-request' | 'internal';

export interface Asked<C extends Contract> {
  readonly id: number;
  readonly request: C['request'];
}

export type Answer<C extends Contract> =
  | { readonly m: 'answer'; readonly id: number; readonly ok: true; readonly value: unknown }
  | {
      readonly m: 'answer';
      readonly id: number;
      readonly ok: false;
      readonly code: RefusalCode<C>;
      readonly detail: string;
    };

export interface Progress {
  readonly m: 'progress';
  readonly id: number;
  /** 0…1. */
  readonly share: number;
}

export type FromWorker<C extends Contract> = Answer<C> | Progress | C['news'];
