import type { PortChoice } from '../engine/messages.ts';

export const serialSupported = (): boolean => 'serial' in navigator;

/**
 * Lets the user choose a port; must run in a press. Where exactly one port was granted and is there, it is taken
 * without asking again, unless another one is wanted. A port cannot be sent to the worker, so it is named by its
 * place among the granted ports and its USB numbers.
 * @returns null when the chooser was closed without a choice: that is no error
 */
export async function choosePort(another: boolean): Promise<PortChoice | null> {
  const granted = await navigator.serial.getPorts();
  const there = granted.filter((p) => (p as SerialPort & { connected?: boolean }).connected !== false);
  if (!another && there.length === 1) return describe(there[0]!, granted.indexOf(there[0]!));
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

function describe(port: SerialPort, index: number): PortChoice {
  const info = port.getInfo();
  return {
    kind: 'serial',
    index: Math.max(0, index),
    usbVendorId: info.usbVendorId ?? null,
    usbProductId: info.usbProductId ?? null,
  };
}
