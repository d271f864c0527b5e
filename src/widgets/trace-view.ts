/** Arithmetic of the visible window of a trace: seconds from the first sample. */

export interface View {
  readonly fromS: number;
  readonly toS: number;
}

/** Not closer than this: at 1 kHz it still holds a hundred readings. */
export const LEAST_SPAN_S = 0.1;

/** Keeps a window inside the trace without changing its width where that can be. */
export function clampView(view: View, whole: View): View {
  const most = Math.max(LEAST_SPAN_S, whole.toS - whole.fromS);
  const span = Math.min(most, Math.max(LEAST_SPAN_S, view.toS - view.fromS));
  const from = Math.min(Math.max(view.fromS, whole.fromS), Math.max(whole.fromS, whole.toS - span));
  return { fromS: from, toS: from + span };
}

/** @param factor under 1 goes closer; @param atShare 0…1 across the plot stays where it is. */
export function zoom(view: View, factor: number, atShare: number, whole: View): View {
  const span = view.toS - view.fromS;
  const most = Math.max(LEAST_SPAN_S, whole.toS - whole.fromS);
  const next = Math.min(most, Math.max(LEAST_SPAN_S, span * factor));
  const at = view.fromS + span * atShare;
  return clampView({ fromS: at - next * atShare, toS: at + next * (1 - atShare) }, whole);
}

/** @param byShare of the visible width, positive: later. */
export function pan(view: View, byShare: number, whole: View): View {
  const by = (view.toS - view.fromS) * byShare;
  return clampView({ fromS: view.fromS + by, toS: view.toS + by }, whole);
}

/** What a key asks for, or null. */
export function keyView(key: string, view: View, whole: View): View | null {
  switch (key) {
    case 'ArrowLeft':
      return pan(view, -0.2, whole);
    case 'ArrowRight':
      return pan(view, 0.2, whole);
    case 'PageUp':
      return pan(view, -0.9, whole);
    case 'PageDown':
      return pan(view, 0.9, whole);
    case '+':
    case '=':
    case 'ArrowUp':
      return zoom(view, 0.5, 0.5, whole);
    case '-':
    case 'ArrowDown':
      return zoom(view, 2, 0.5, whole);
    case 'Home':
      return clampView({ fromS: whole.fromS, toS: whole.fromS + (view.toS - view.fromS) }, whole);
    case 'End':
      return clampView({ fromS: whole.toS - (view.toS - view.fromS), toS: whole.toS }, whole);
    case '0':
      return whole;
    default:
      return null;
  }
}
