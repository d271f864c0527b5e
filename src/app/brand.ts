/** The program's mark, in the colour of the text round it; the page has it before any program. */
export const BRAND_MARK =
  '<svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true">' +
  '<path d="M5 2v22M5 3h6M5 10h4M5 16h6M5 23h6" stroke="currentColor" stroke-width="2" fill="none"/>' +
  '<path d="M5 7h11" stroke="currentColor" stroke-width="2.5"/>' +
  '<path d="M22 12.500l-9-5v10z" fill="currentColor"/></svg>';
