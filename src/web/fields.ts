/** Fields that many doors have. */
import * as z from "zod";
import { TEXT_MAX } from "../bounds.ts";

/** Marks that move what stands around them, and controls: a name in one line has none of them (Unicode 16, Bidi_Control and Cc). */
const UNSEEN = /[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu;

/** A short text with something in it, in one line. */
export const text = z
  .string()
  .overwrite((written) => written.replace(UNSEEN, " ").replace(/ {2,}/g, " "))
  .trim()
  .min(1)
  .max(TEXT_MAX);
/** May be left out, or null. */
export const optional = <Schema extends z.ZodType>(schema: Schema) => schema.nullable().default(null);
/** What somebody writes in her own words; nothing written is nothing said. */
export const words = (most: number) => optional(z.string().trim().max(most)).transform((written) => written || null);
/** The beginning of a text, with no character cut in two: half of one stands in no cookie. */
export const beginningOf = (written: string, most: number): string =>
  written.slice(0, most).replace(/[\ud800-\udbff]$/, "");
