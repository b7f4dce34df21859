/** What a form at the desk sent: bounded, its fields as text, its files beside them. */
import { BODY_MAX_BYTES, DIARY_MAX_BYTES } from "../../bounds.ts";
import type { RequestFault } from "../problems.ts";
import { isForm } from "../readBody.ts";

export interface Pressed {
  /** In the order they were sent; a name may stand several times. */
  readonly fields: URLSearchParams;
  /** By the field's name; one that was left empty is not there. */
  readonly files: ReadonlyMap<string, File>;
}

export type PressedRead =
  | { readonly ok: true; readonly value: Pressed }
  | { readonly ok: false; readonly fault: RequestFault };

/** Room for a form's own lines around its files. */
const FORM_ROOM_BYTES = 1_000_000;

const isMultipart = (request: Request): boolean =>
  /^multipart\/form-data\s*;/i.test(request.headers.get("content-type") ?? "");

/** The body, or undefined where it is larger than `max`; the rest is read and dropped, so that an answer gets out. */
const bounded = async (request: Request, max: number): Promise<Blob | undefined> => {
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for await (const chunk of request.body ?? []) {
    length += chunk.byteLength;
    if (length <= max) chunks.push(chunk as Uint8Array<ArrayBuffer>);
  }
  return length > max ? undefined : new Blob(chunks);
};

/** The same before anybody has signed in: without files, which would be in memory several times over before they are refused. */
export const readPlain = async (request: Request): Promise<PressedRead> => {
  if (isForm(request)) return readPressed(request);
  await request.body?.pipeTo(new WritableStream());
  const type = request.headers.get("content-type") ?? "";
  return { ok: false, fault: { code: "wrong-type", type, wanted: "application/x-www-form-urlencoded" } };
};

export const readPressed = async (request: Request): Promise<PressedRead> => {
  const type = request.headers.get("content-type") ?? "";
  if (isForm(request)) {
    const body = await bounded(request, BODY_MAX_BYTES);
    if (!body) return { ok: false, fault: { code: "body-too-large" } };
    return { ok: true, value: { fields: new URLSearchParams((await body.text()).toWellFormed()), files: new Map() } };
  }
  if (!isMultipart(request))
    return { ok: false, fault: { code: "wrong-type", type, wanted: "application/x-www-form-urlencoded" } };
  const body = await bounded(request, DIARY_MAX_BYTES + FORM_ROOM_BYTES);
  if (!body) return { ok: false, fault: { code: "diary-too-large" } };
  try {
    const sent = await new Response(body, { headers: { "content-type": type } }).formData();
    const fields = new URLSearchParams();
    const files = new Map<string, File>();
    for (const [name, value] of sent) {
      if (typeof value === "string") fields.append(name, value.toWellFormed());
      else if (value.size > 0) files.set(name, value);
    }
    return { ok: true, value: { fields, files } };
  } catch {
    return { ok: false, fault: { code: "wrong-type", type, wanted: "application/x-www-form-urlencoded" } };
  }
};
