import type { PortChoice } from '../engine/messages.ts';

/** Speed asked of bridge chips; devices with their own USB ignore it. */
const BAUD_RATE = 115_200;

export const serialSupported = (): boolean => 'serial' in navigator;

/**
 * Lets the user choose a port; must run in a press. A port cannot be sent to the worker, so it is named by its
 * place among the granted ports and its USB numbers.
 * @returns null when the chooser was closed without a choice: that is no error
 */
export async function choosePort(): Promise<PortChoice | null> {
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

/** The port that was granted before, when there is exactly one. */
export async function knownPort(): Promise<PortChoice | null> {
  if (!serialSupported()) return null;
  const ports = await navigator.serial.getPorts();
  const only = ports.length === 1 ? ports[0] : undefined;
  return only === undefined ? null : describe(only, 0);
}

function describe(port: SerialPort, index: number): PortChoice {
  const info = port.getInfo();
  return {
    kind: 'serial',
    index: Math.max(0, index),
    usbVendorId: info.usbVendorId ?? null,
    usbProductId: info.usbProductId ?? null,
    baudRate: BAUD_RATE,
  };
}
