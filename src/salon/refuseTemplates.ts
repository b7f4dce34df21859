/** Which of `clientFrom` may not be saved: one that finds no client would leave every appointment without a name. Pure. */
import { parseTemplate } from "../diary/matchTemplate.ts";
import { refusal } from "../plan/refusal.ts";
import type { Refusal } from "../plan/types.ts";
import type { Settings } from "../settings.ts";

/**
 * @param stored the settings that hold; what stands there already is not refused anew, or no other setting could be changed
 * until it is mended
 */
export const refuseTemplates = (
  { clientFrom }: Pick<Settings, "clientFrom">,
  stored: Pick<Settings, "clientFrom"> | undefined,
): readonly Refusal[] =>
  clientFrom.flatMap((value, index) => {
    if (stored?.clientFrom.includes(value) || isTemplate(value)) return [];
    return [
      refusal({
        code: "client-template",
        at: `clientFrom[${index}]`,
        value,
        limit:
          "attendee, or a title in which {client} stands once and {service} at most once, with something between them",
        reason: "in no entry would it find a client",
        remedy: "write one such as {service} - {client}",
      }),
    ];
  });

const isTemplate = (text: string): boolean => {
  if (text.toLowerCase() === "attendee") return true;
  const template = parseTemplate(text);
  return template !== undefined && !/[{}]/.test(template.before + template.between + template.after);
};
