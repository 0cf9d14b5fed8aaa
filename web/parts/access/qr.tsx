import { useEffect, useState } from 'preact/hooks';

/** Quiet zone that readers need round the code, in modules. */
const QUIET = 2;

/** A QR code. Dark on light in either palette, since many readers know no other; its drawer is loaded when it is needed. */
export function Qr({ text, label }: { text: string; label: string }) {
  const [drawn, setDrawn] = useState<{ size: number; path: string }>();
  useEffect(() => {
    let wanted = true;
    void import('uqr').then(({ encode }) => {
      const { data, size } = encode(text, { ecc: 'M', border: QUIET });
      const path = data
        .flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : '')))
        .join('');
      if (wanted) setDrawn({ size, path });
    });
    return () => {
      wanted = false;
    };
  }, [text]);
  if (!drawn) return <div class="qr" />;
  const { size, path } = drawn;
  return (
    <svg
      class="qr"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${size} ${size}`}
      shape-rendering="crispEdges"
    >
      <rect class="light" width={size} height={size} />
      <path class="dark" d={path} />
    </svg>
  );
}
