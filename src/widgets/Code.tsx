import { createMemo } from 'solid-js';
import { encode } from 'uqr';

/** A QR code of a text, black on its own white ground whatever the theme, with the quiet zone that readers ask for. */
export function Code(props: { text: string; label: string }) {
  const code = createMemo(() => {
    const { size, data } = encode(props.text, { ecc: 'M', border: 4 });
    let path = '';
    for (const [y, row] of data.entries())
      for (let x = 0; x < row.length; x++) if (row[x]) path += `M${x} ${y}h1v1h-1z`;
    return { size, path };
  });
  return (
    <svg
      class="code"
      data-testid="code"
      viewBox={`0 0 ${code().size} ${code().size}`}
      role="img"
      aria-label={props.label}
      shape-rendering="crispEdges"
    >
      <rect width={code().size} height={code().size} fill="#fff" />
      <path d={code().path} fill="#000" />
    </svg>
  );
}
