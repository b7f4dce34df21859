/** Who decides something at the desk, and why: the person at the screen, and what stood in the form's reason. */
import type { Context } from "hono";
import * as z from "zod";
import { NOTE_MAX } from "../../bounds.ts";
import type { Decider } from "../../salon/clientDecisions.ts";
import { words } from "../fields.ts";
import type { DeskService } from "./desk.ts";
import { type FieldsRead, readFields } from "./readFields.ts";

const reasonForm = z.strictObject({ reason: words(NOTE_MAX) });

export const readDecider = (c: Context<DeskService>): FieldsRead<Decider> => {
  const read = readFields(c.var.pressed, reasonForm, { reason: "Reason" });
  if (!read.ok) return read;
  return { ok: true, value: { by: c.var.signed.who, via: "desk", reason: read.value.reason } };
};

/** Of a press that asks for no reason. */
export const deciderHere = (c: Context<DeskService>): Decider => ({ by: c.var.signed.who, via: "desk", reason: null });
