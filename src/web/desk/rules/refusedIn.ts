/** What was refused of a form of settings: each at its field; what is of no field stands as a whole. */
import { type AnyFault, wordsOf } from "../../problems.ts";
import { faultsOf, type FormFault } from "./formFaults.ts";
import type { FormRead, Typed } from "./rulesForm.ts";

export const refusedIn = (fault: AnyFault, form: FormRead, typed: Typed): readonly FormFault[] => {
  if (fault.code === "request-refused") return faultsOf(fault.errors, form, typed);
  if (fault.code === "settings-refused") return faultsOf(fault.refusals, form, typed);
  if (fault.code === "settings-changed-meanwhile") {
    return [
      {
        field: null,
        text: "Somebody saved other rules meanwhile. What you typed is kept: look it over and press again.",
      },
    ];
  }
  return [{ field: null, text: wordsOf(fault).detail }];
};
