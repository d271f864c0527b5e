import { createSignal } from 'solid-js';

/**
 * Modal sheets give way to what presses. The platform's modal dialog takes every press of the page to itself, also where the part of
 * the page that it stands in is out of sight: an alarm behind it could be neither read nor acknowledged.
 */
export interface Pressing {
  /** An urgent alarm waits, or the watch is not heard. */
  readonly urgent: boolean;
  /** The live page is in front; another one may be kept behind it. */
  readonly onLive: boolean;
}

const [pressing, setPressing] = createSignal<Pressing>({ urgent: false, onLive: false });

export const dialogsGiveWay = setPressing;

/** Has that element to give way now? It comes again, as it was, when nothing presses and its page is in sight. */
export const hasToGiveWay = (element: Element): boolean => {
  const { urgent, onLive } = pressing();
  return urgent || (onLive && element.closest('[hidden]') !== null);
};
