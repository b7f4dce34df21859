/** Fields that many doors have. */
import * as z from "zod";
import { TEXT_MAX } from "../bounds.ts";

/** A short text with something in it. */
export const text = z.string().trim().min(1).max(TEXT_MAX);
/** May be left out, or null. */
export const optional = <Schema extends z.ZodType>(schema: Schema) => schema.nullable().default(null);
