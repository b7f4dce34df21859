/**
 * What one press on a client's page tells. A button sends one value, so that kind, outcome and route stand in it side by side: one
 * form then has many buttons and one time for whichever is pressed. In no address: those are written down in many places.
 */
import type { Report } from "./clientReports.ts";

/** `read.clear.`, `applied..home-kit` */
export const pressValue = ({ kind, outcome, route }: Pick<Report, "kind" | "outcome" | "route">): string =>
  [kind, outcome ?? "", route ?? ""].join(".");

/** A form's fields with what was pressed in the fields that a record has; others stay as they are. */
export const pressedFields = ({
  press,
  ...fields
}: Readonly<Record<string, string>>): Readonly<Record<string, string>> => {
  if (press === undefined) return fields;
  const [kind = "", outcome = "", route = ""] = press.split(".");
  return { kind, outcome, route, ...fields };
};
