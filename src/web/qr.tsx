/** An address as a QR code, drawn in the page: nothing is fetched for it. The only door to uqr. */
import type { FC } from "hono/jsx";
import { encode } from "uqr";

/** Light modules around the code, without which some readers do not find it (ISO/IEC 18004 asks for four). */
const QUIET = 4;

/** @param label what it leads to, for who cannot see it */
export const QrCode: FC<{ address: string; label: string }> = ({ address, label }) => {
  const { data, size } = encode(address, { ecc: "M", border: 0 });
  const side = size + 2 * QUIET;
  const rows = data.map((row, y) =>
    row.map((isDark, x) => (isDark ? `M${x + QUIET} ${y + QUIET}h1v1h-1z` : "")).join(""),
  );
  return (
    <svg class="qr" viewBox={`0 0 ${side} ${side}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect width={side} height={side} fill="#fff" />
      <path d={rows.join("")} fill="#000" />
    </svg>
  );
};
