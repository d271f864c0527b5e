/** What every DocumentStore must do. */
import type { DocumentStore, StoredDocument } from '../store.ts';
import { type Case, equal, refused } from './cases.ts';

const doc = (id: string, body: unknown, revision = 0): StoredDocument => ({
  kind: 'packer',
  id,
  revision,
  savedUtcMs: 5,
  body,
});

export const documentCases: readonly Case<DocumentStore>[] = [
  {
    name: 'gives null for what it does not hold',
    async run(store) {
      equal(await store.get('packer', 'x'), null, 'get');
      equal(await store.list('packer'), [], 'list');
      await refused('missing', 'remove', () => store.remove('packer', 'x'));
    },
  },
  {
    name: 'counts revisions up and gives back what it keeps',
    async run(store, again) {
      const first = await store.put(doc('a', { bar: [1.5, null], name: 'ä' }));
      equal(first, doc('a', { bar: [1.5, null], name: 'ä' }, 1), 'put');
      const second = await store.put({ ...first, body: { bar: [] } });
      equal(second.revision, 2, 'second revision');
      equal(await store.get('packer', 'a'), doc('a', { bar: [] }, 2), 'get');
      equal(await (await again()).get('packer', 'a'), doc('a', { bar: [] }, 2), 'after a restart');
    },
  },
  {
    name: 'refuses a stale revision, and leaves what rests as it was',
    async run(store) {
      const first = await store.put(doc('a', 1));
      await store.put({ ...first, body: 2 });
      await refused('stale', 'from an old reading', () => store.put({ ...first, body: 3 }));
      await refused('stale', 'new where one rests', () => store.put(doc('a', 4)));
      await refused('stale', 'a revision ahead', () => store.put(doc('a', 5, 9)));
      await refused('stale', 'a change of what never was', () => store.put(doc('b', 6, 1)));
      equal((await store.get('packer', 'a'))?.body, 2, 'body');
      equal(await store.get('packer', 'b'), null, 'nothing made');
    },
  },
  {
    name: 'lets one of two writers at the same moment through',
    async run(store) {
      const first = await store.put(doc('a', 0));
      const all = await Promise.allSettled([1, 2, 3].map((body) => store.put({ ...first, body })));
      equal(all.filter((r) => r.status === 'fulfilled').length, 1, 'winners');
      equal((await store.get('packer', 'a'))?.revision, 2, 'revision');
    },
  },
  {
    name: 'keeps kinds apart and lists by id',
    async run(store) {
      await store.put(doc('b', 1));
      await store.put(doc('a', 2));
      await store.put({ ...doc('a', 3), kind: 'resin' });
      equal(
        (await store.list('packer')).map((d) => [d.id, d.body]),
        [
          ['a', 2],
          ['b', 1],
        ],
        'packers',
      );
      equal(
        (await store.list('resin')).map((d) => d.body),
        [3],
        'resins',
      );
      await store.remove('packer', 'a');
      equal(
        (await store.list('packer')).map((d) => d.id),
        ['b'],
        'after removal',
      );
      equal((await store.get('resin', 'a'))?.body, 3, 'the other kind stands');
    },
  },
  {
    name: 'lists the ids that begin alike, and no other',
    async run(store) {
      for (const id of ['a', 'ab-1', 'ab-2', 'abc', 'b']) await store.put(doc(id, id));
      equal(
        (await store.list('packer', 'ab')).map((d) => d.id),
        ['ab-1', 'ab-2', 'abc'],
        'ab',
      );
      equal(await store.list('packer', 'c'), [], 'none');
    },
  },
  {
    name: 'takes a part of the archive’s rows back with whatever may change one of them',
    async run(store) {
      const sha = 'c'.repeat(64);
      const changes: readonly (readonly [StoredDocument['kind'], string, string])[] = [
        ['run', '7-run', 'run-7'],
        ['seal', '7-run', 'run-7'],
        ['review', '7-run', 'run-7'],
        ['seal', `import-${sha}`, 'import-c'],
        ['review', `label-${sha}`, 'import-c'],
        ['review', sha, 'import-c'],
      ];
      for (const [kind, id, part] of changes) {
        const put = await store.put({ ...doc(id, 1), kind });
        const open = await store.get('rows', part);
        equal(open?.body, null, `${kind} ${id}: taken back`);
        const made = await store.put({ ...open!, body: 'rows' });
        await store.put({ ...put, body: 2 });
        await refused('stale', `${kind} ${id}: rows from before`, () => store.put({ ...made, body: 'old' }));
        const again = await store.put({ ...(await store.get('rows', part))!, body: 'rows' });
        await store.remove(kind, id);
        await refused('stale', `${kind} ${id}: rows with what went`, () => store.put(again));
        equal((await store.get('rows', part))?.body, null, `${kind} ${id}: taken back by its removal`);
      }
      await store.put({ ...doc('7', 1), kind: 'job' });
      equal((await store.list('rows')).length, 2, 'parts');
    },
  },
  {
    name: 'starts again at revision 1 after a removal',
    async run(store) {
      const first = await store.put(doc('a', 1));
      await store.remove('packer', 'a');
      await refused('stale', 'a change of what was removed', () => store.put(first));
      equal((await store.put(doc('a', 2))).revision, 1, 'revision');
    },
  },
  {
    name: 'is not changed from outside',
    async run(store) {
      const body = { list: [1] };
      const kept = await store.put(doc('a', body));
      body.list.push(2);
      (kept.body as { list: number[] }).list.push(3);
      const got = await store.get('packer', 'a');
      equal(got?.body, { list: [1] }, 'body');
      if (got !== null) (got.body as { list: number[] }).list.push(4);
      equal((await store.get('packer', 'a'))?.body, { list: [1] }, 'body again');
    },
  },
  {
    name: 'keeps a signing key that can not be taken out',
    async run(store, again) {
      const pair = await crypto.subtle.generateKey('Ed25519', false, ['sign', 'verify']);
      await store.put({ ...doc('k', pair), kind: 'key' });
      const body = (await (await again()).get('key', 'k'))?.body as CryptoKeyPair;
      equal(body.privateKey.extractable, false, 'extractable');
      const text = Uint8Array.of(1, 2, 3);
      const signature = await crypto.subtle.sign('Ed25519', body.privateKey, text);
      equal(await crypto.subtle.verify('Ed25519', pair.publicKey, signature, text), true, 'verify');
    },
  },
];
