import type { PortIds, SerialChoice } from '../engine/messages.ts';

export const serialSupported = (): boolean => 'serial' in navigator;

const isThere = (port: SerialPort): boolean =>
  (port as SerialPort & { connected?: boolean }).connected !== false;

function hasIds(port: SerialPort, ids: PortIds): boolean {
  const { usbVendorId, usbProductId } = describe(port, 0);
  return usbVendorId === ids.usbVendorId && usbProductId === ids.usbProductId;
}

/** The one granted port that is there and has these numbers; asks for nothing. null: none, or it could be one of several. */
export async function knownPort(ids: PortIds): Promise<SerialChoice | null> {
  if (!serialSupported()) return null;
  const granted = await navigator.serial.getPorts();
  const same = granted.filter((port) => isThere(port) && hasIds(port, ids));
  if (same.length !== 1) return null;
  const choice = describe(same[0]!, granted.indexOf(same[0]!));
  return ids.map === undefined ? choice : { ...choice, map: ids.map };
}

/** Calls whenever a granted port appears. @returns stops that */
export function onPlugged(listener: () => void): () => void {
  if (!serialSupported()) return () => undefined;
  navigator.serial.addEventListener('connect', listener);
  return () => navigator.serial.removeEventListener('connect', listener);
}

/**
 * Lets the user choose a port; must run in a press. Where exactly one port was granted and is there, it is taken
 * without asking again, and of several the one that a known device answered on last, unless another one is wanted. The
 * chooser shows all ports: no kind of converter is left out. A port cannot be sent to the worker, so it is named by its
 * place among the granted ports and its USB numbers.
 * @param besides the port that is read already: the one that is wanted is another
 * @returns null when the chooser was closed without a choice: that is no error
 */
export async function choosePort(
  another: boolean,
  known: readonly PortIds[] = [],
  besides: PortIds | null = null,
): Promise<SerialChoice | null> {
  const granted = await navigator.serial.getPorts();
  const there = granted.filter(
    (port) => isThere(port) && !(besides !== null && isOnly(granted, port, besides)),
  );
  const taken = another ? undefined : there.length === 1 ? there[0] : onlyKnown(there, known);
  if (taken !== undefined) return describe(taken, granted.indexOf(taken));
  let port: SerialPort;
  try {
    port = await navigator.serial.requestPort();
  } catch (error) {
    if ((error as { name?: unknown }).name === 'NotFoundError') return null;
    throw error;
  }
  const ports = await navigator.serial.getPorts();
  return describe(port, ports.indexOf(port));
}

/** It is the one port with these numbers: of two alike nobody can tell which is read. */
const isOnly = (granted: readonly SerialPort[], port: SerialPort, ids: PortIds): boolean =>
  hasIds(port, ids) && granted.filter((p) => isThere(p) && hasIds(p, ids)).length === 1;

/** Of the known ports, newest first, the first that is there once: of two alike nobody can tell which. */
function onlyKnown(there: readonly SerialPort[], known: readonly PortIds[]): SerialPort | undefined {
  for (const ids of known) {
    const same = there.filter((port) => hasIds(port, ids));
    if (same.length > 0) return same.length === 1 ? same[0] : undefined;
  }
  return undefined;
}

function describe(port: SerialPort, index: number): SerialChoice {
  const info = port.getInfo();
  return {
    kind: 'serial',
    index: Math.max(0, index),
    usbVendorId: info.usbVendorId ?? null,
    usbProductId: info.usbProductId ?? null,
  };
}
