const ENTITY: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Control characters, which XML has not: all under a space but tab, line feed and carriage return. */
const isPlain = (c: string): boolean =>
  c >= ' ' ? (c !== '\u007f' && c < '\ufffe') || c.length > 1 : '\t\n\r'.includes(c);

/** Text for HTML and XML, in elements and in quoted attributes; what XML can't hold is dropped. */
export function escapeXml(text: string): string {
  return [...text]
    .filter(isPlain)
    .join('')
    .replace(/[&<>"']/g, (c) => ENTITY[c]!);
}
