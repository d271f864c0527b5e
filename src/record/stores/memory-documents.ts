/** Documents in memory. Kept and given as copies: what rests can't be changed from outside. */
import { byId, nextRevision } from './documents.ts';
import { partTakenBack, takenBack } from './row-parts.ts';
import { type DocumentKind, type DocumentStore, type StoredDocument, StoreError } from './store.ts';

class MemoryDocuments implements DocumentStore {
  private readonly kinds = new Map<DocumentKind, Map<string, StoredDocument>>();

  private of(kind: DocumentKind): Map<string, StoredDocument> {
    let map = this.kinds.get(kind);
    if (map === undefined) {
      map = new Map();
      this.kinds.set(kind, map);
    }
    return map;
  }

  async get(kind: DocumentKind, id: string): Promise<StoredDocument | null> {
    const found = this.of(kind).get(id);
    return found === undefined ? null : structuredClone(found);
  }

  async list(kind: DocumentKind, prefix = ''): Promise<readonly StoredDocument[]> {
    const found = [...this.of(kind).values()].filter((d) => d.id.startsWith(prefix));
    return found.sort(byId).map((d) => structuredClone(d));
  }

  private takeBack(kind: DocumentKind, id: string): void {
    const part = partTakenBack(kind, id);
    if (part !== null) this.of('rows').set(part, takenBack(this.of('rows').get(part) ?? null, part));
  }

  async put(document: StoredDocument): Promise<StoredDocument> {
    const map = this.of(document.kind);
    const next = nextRevision(map.get(document.id) ?? null, document);
    map.set(document.id, structuredClone(next));
    this.takeBack(document.kind, document.id);
    return next;
  }

  async remove(kind: DocumentKind, id: string): Promise<void> {
    if (!this.of(kind).delete(id)) throw new StoreError('missing', `no ${kind} ${id}`);
    this.takeBack(kind, id);
  }
}

export function createMemoryDocuments(): DocumentStore {
  return new MemoryDocuments();
}
