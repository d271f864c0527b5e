/** A small contract for tests of what serves every worker. */
export interface TestContract {
  readonly request:
    | { readonly q: 'double'; readonly n: number }
    | { readonly q: 'long'; readonly steps: number }
    | { readonly q: 'refuse' };
  readonly answers: { double: number; long: string; refuse: null };
  readonly refusal: 'closed';
  readonly news: { readonly m: 'news'; readonly text: string };
}
