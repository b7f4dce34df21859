/** What a client is sent from the desk: where she stands, when her colour is, and her page. Nothing of results or answers. */
import { appointmentWords, nextToDo } from "../../feed/nextToDo.ts";
import { isStopped } from "../../feed/openSteps.ts";
import type { FeedContext } from "../../feed/types.ts";
import type { Plan } from "../../plan/types.ts";
import type { Message } from "./reach.tsx";

/** @param page her page's address */
export const messageFor = (plan: Plan, context: FeedContext, page: string): Message => {
  const { name, contact } = context.settings;
  const headline = nextToDo(plan, context).headline.replace(/\.$/, "");
  const ask = contact.phone === null ? "" : ` Our telephone: ${contact.phone}.`;
  const text = isStopped(plan)
    ? `${name}: ${headline}.${ask}`
    : `${name}: ${headline}. ${appointmentWords(plan, context)}\n\nYour page, with every step and its time: ${page}\n${ask.trim()}`.trim();
  return { subject: `Your appointment at ${name}`, text };
};
