/** How to reach a client from the desk: by telephone, text or e-mail, the words ready. */
import type { FC } from "hono/jsx";
import type { DeskClient } from "../../salon/deskPeople.ts";

export interface Message {
  readonly subject: string;
  readonly text: string;
}

/** Digits as a telephone dials them. */
const dialled = (phone: string): string => phone.replaceAll(/(?!^\+)[^\d]/g, "");

/**
 * `sms:` as RFC 5724 has it, but with `?&body`: the telephones of one maker know only the one mark, those of others only the other
 * (from memory).
 */
export const smsAddress = (phone: string, text: string): string =>
  `sms:${dialled(phone)}?&body=${encodeURIComponent(text)}`;

/** RFC 6068; line ends as it asks for them. */
export const mailAddress = (email: string, message: Message | null): string => {
  const to = `mailto:${encodeURIComponent(email).replaceAll("%40", "@")}`;
  if (message === null) return to;
  const { subject, text } = message;
  return `${to}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
};

export const telAddress = (phone: string): string => `tel:${dialled(phone)}`;

export const Reach: FC<{ client: Pick<DeskClient, "name" | "phone" | "email">; message: Message | null }> = ({
  client: { name, phone, email },
  message,
}) => (
  <p class="reach">
    {phone === null ? null : (
      <>
        <a class="button" href={telAddress(phone)}>
          Telephone <span class="unseen">{name}, </span>
          <span class="number">{phone}</span>
        </a>
        {message === null ? null : (
          <a class="button" href={smsAddress(phone, message.text)}>
            Text<span class="unseen"> {name}</span>
          </a>
        )}
      </>
    )}
    {email === null ? null : (
      <a class="button" href={mailAddress(email, message)}>
        E-mail<span class="unseen"> {name}</span>
      </a>
    )}
    {phone === null && email === null ? <span class="small">The diary gives neither telephone nor e-mail.</span> : null}
  </p>
);
