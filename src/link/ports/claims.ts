/** Which ports of this page are whose, where two adapters are read: none is ever taken for the other. A leaf. */

export interface KindOfPort {
  /** The USB numbers; null: it has none. */
  readonly usbVendorId: number | null;
  readonly usbProductId: number | null;
}

/** One adapter's part, from its first opening on until it is given up. */
export interface Claim<P> {
  /** The port that is open for it, or about to be; null: it waits for its own to come back. */
  held: P | null;
  /** The port that it held last. */
  last: P | null;
  giveUp(): void;
}

export interface PortClaims<P> {
  /** @param isNamed what is behind it says who it is: another device is told from it at its first line */
  claim(kind: KindOfPort, isNamed: boolean): Claim<P>;
  isOthers(port: P, claim: Claim<P>): boolean;
  /**
   * Another adapter of the same kind waits too, and one of the two has no name: whichever port comes, nobody could tell whose it
   * is. The system says nothing of a port but its USB numbers (Web Serial, 4.4 getInfo).
   */
  isAlike(claim: Claim<P>): boolean;
}

interface Entry<P> extends Claim<P> {
  readonly kind: KindOfPort;
  readonly isNamed: boolean;
}

export function createPortClaims<P>(): PortClaims<P> {
  const all = new Set<Entry<P>>();
  const others = (claim: Claim<P>): Entry<P>[] => [...all].filter((c) => c !== claim);
  return {
    claim(kind, isNamed) {
      const entry: Entry<P> = { kind, isNamed, held: null, last: null, giveUp: () => void all.delete(entry) };
      all.add(entry);
      return entry;
    },
    isOthers: (port, claim) => others(claim).some((c) => c.held === port),
    isAlike(claim) {
      const mine = [...all].find((c) => c === claim);
      return others(claim).some(
        (c) =>
          c.held === null &&
          c.last !== null &&
          mine !== undefined &&
          !(c.isNamed && mine.isNamed) &&
          c.kind.usbVendorId === mine.kind.usbVendorId &&
          c.kind.usbProductId === mine.kind.usbProductId,
      );
    },
  };
}
