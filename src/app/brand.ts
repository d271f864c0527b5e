/**
 * The program's mark: a column under the stop that it must not reach. In the colour of the text round it; the page has
 * it before any program.
 */
export const BRAND_MARK =
  '<svg width="26" height="26" viewBox="0 0 26 26" aria-hidden="true" fill="currentColor">' +
  '<path d="M2 1h22v12h-3.500V5h-15v8H2z"/>' +
  '<path d="M8 9h10v3.500H8zM8 14h10v4.500H8zM8 20h10v5H8z"/></svg>';
