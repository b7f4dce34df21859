/** Earlier results at the desk: a table is tried, then brought in as it was tried. */
import { type Context, Hono } from "hono";
import { IMPORT_MAX_BYTES } from "../../bounds.ts";
import { readImport } from "../importDoor.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { type AnyFault, wordsOf } from "../problems.ts";
import { type DeskService, onceOf } from "./desk.ts";
import { ImportPage, type Tried } from "./importPage.tsx";

export const importRoutes = new Hono<DeskService>();

const importPage = (
  c: Context<DeskService>,
  tried: Tried | null,
  faults: readonly string[],
): Response | Promise<Response> => {
  const page = <ImportPage signed={c.var.signed} tried={tried} faults={faults} />;
  return c.html(page, faults.length > 0 ? 422 : 200, SCRIPT_PAGE_HEADERS);
};

importRoutes.get("/desk/log/import", (c) => importPage(c, null, []));

importRoutes.post("/desk/log/import", async (c) => {
  const { fields, files } = c.var.pressed;
  const isTrial = fields.get("do") !== "import";
  const bytes = isTrial ? await files.get("file")?.arrayBuffer() : Buffer.from(fields.get("table") ?? "", "base64");
  if (!bytes || bytes.byteLength === 0)
    return importPage(c, null, ["No table was chosen: choose a file, then try it."]);
  if (bytes.byteLength > IMPORT_MAX_BYTES) {
    const text = `The file has ${bytes.byteLength} bytes, and at most ${IMPORT_MAX_BYTES} are read; send it in parts.`;
    return importPage(c, null, [text]);
  }
  const text = decode(bytes);
  if (text === undefined) {
    return importPage(c, null, [
      "The file is not text in UTF-8, so names in it cannot be told; save it as CSV UTF-8 and try it again.",
    ]);
  }
  const read = readImport(text);
  if (!read.ok) return importPage(c, null, sentencesOf(read.fault));
  const imported = await c.var.salon.importRecords(read.value.lines, isTrial, isTrial ? null : onceOf(c));
  if (!imported.ok) return importPage(c, null, sentencesOf(imported.fault));
  const refused = [...read.value.refused, ...imported.value.refused].toSorted((one, other) => one.line - other.line);
  const table = isTrial ? Buffer.from(text).toString("base64") : null;
  return importPage(c, { imported: { ...imported.value, refused }, table }, []);
});

/** Undefined for what is no UTF-8. */
const decode = (bytes: ArrayBuffer | Uint8Array): string | undefined => {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(bytes);
  } catch {
    return undefined;
  }
};

const sentencesOf = (fault: AnyFault): readonly string[] => {
  const { detail, errors } = wordsOf(fault);
  return errors === undefined ? [detail] : errors.map(({ text }) => text);
};
