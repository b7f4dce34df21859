/** A page of one message, with the emergency words above it as on every page a client may see. */
import type { FC } from "hono/jsx";
import { EmergencyNote } from "./emergencyNote.tsx";
import { Page } from "./layout.tsx";

export interface Message {
  readonly heading: string;
  readonly text: string;
  /** Where to go on; null: nowhere. */
  readonly back: string | null;
}

/** @param country of the salon, where it is known */
export const MessagePage: FC<{ message: Message; country: string | null }> = ({ message, country }) => (
  <Page title={message.heading} language="en-GB">
    <EmergencyNote country={country} />
    <section class="card">
      <h2>{message.heading}</h2>
      <p>{message.text}</p>
      {message.back === null ? null : (
        <p>
          <a href={message.back}>Back to your page</a>
        </p>
      )}
    </section>
  </Page>
);

/** For a link that opens nothing; tells apart only one that was once valid. */
export const linkMessage = (isRevoked: boolean): Message => ({
  heading: isRevoked ? "This link is no longer in use" : "There is nothing at this link",
  text: isRevoked
    ? "If you have an appointment for colour, ask the salon for a new link."
    : "Check that it is complete, or ask the salon for your link.",
  back: null,
});
