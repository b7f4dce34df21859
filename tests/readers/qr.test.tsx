/** The QR code of a page is read back by ZBar (Debian: zbar-tools), which knows nothing of how it was made. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { QrCode } from "../../src/web/qr.tsx";

/** Pixels of one module. */
const SCALE = 6;

/** The drawing as a grey picture: white where no module is drawn, so that the quiet zone is part of what is read. */
const pictureOf = (svg: string): Buffer => {
  const side = Number(/viewBox="0 0 (\d+) \1"/.exec(svg)?.[1]);
  const pixels = Buffer.alloc((side * SCALE) ** 2, 255);
  for (const [, x, y] of svg.matchAll(/M(\d+) (\d+)h1v1h-1z/g)) {
    for (let row = 0; row < SCALE; row++) {
      const from = (Number(y) * SCALE + row) * side * SCALE + Number(x) * SCALE;
      pixels.fill(0, from, from + SCALE);
    }
  }
  return Buffer.concat([Buffer.from(`P5 ${side * SCALE} ${side * SCALE} 255\n`), pixels]);
};

test.each([
  "https://countback.example/c/s3Df18-aQheZVAAAAAEAARmuqI8cQfVh_3OM11YQKKND-5t0wq9ECA",
  "http://localhost:8787/c/s3Df18-aQheZVAAAAAcAARECIGt136sqZJaiwJy1HAqRy9xsTNT1mQ/skin-test.ics",
])("%s", (address) => {
  const folder = mkdtempSync(join(tmpdir(), "countback-"));
  try {
    const file = join(folder, "code.pgm");
    const drawn: { readonly toString: () => string } = <QrCode address={address} label="the page" />;
    writeFileSync(file, pictureOf(drawn.toString()));
    expect(execFileSync("zbarimg", ["--quiet", "--raw", file], { encoding: "utf8" }).trim()).toBe(address);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
