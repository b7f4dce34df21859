/** Where a client's name is looked for: what could never find one is refused with the remedy. The project's own rules. */
import { expect, test } from "vitest";
import { refuseTemplates } from "../../src/salon/refuseTemplates.ts";

test.each([
  "attendee",
  "Attendee",
  "{client}",
  "{service} - {client}",
  "[{client}] {service}",
  "({service}*)+$ {client}",
])("%s is taken", (template) => expect(refuseTemplates({ clientFrom: [template] }, undefined)).toEqual([]));

test.each([
  "{service}",
  "{Service} - {Client}",
  "{service} - {name}",
  "{service} - {client",
  "{service}{client}",
  "{client} - {client}",
  "{service} {staff} - {client}",
  "service - client",
])("%s is refused, in words that say how to write it", (template) => {
  const [refused] = refuseTemplates({ clientFrom: ["attendee", template] }, undefined);
  expect(refused).toMatchObject({ code: "client-template", at: "clientFrom[1]", value: template });
  expect(refused?.text).toContain(
    `not ${template}: in no entry would it find a client; write one such as {service} - {client}.`,
  );
});

test("what is stored already keeps no other setting from being changed", () => {
  const clientFrom = ["{service} - {name}"];
  expect(refuseTemplates({ clientFrom }, { clientFrom })).toEqual([]);
});
