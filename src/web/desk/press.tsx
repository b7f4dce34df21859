/** Forms of the desk: each proves that it is the desk's own, and is done once however often it is sent. */
import type { Child, FC } from "hono/jsx";
import type { Signed } from "./desk.ts";

/** The fields that every form carries besides its own. */
export const Fields: FC<{ signed: Signed; back?: string | undefined }> = ({ signed, back }) => (
  <>
    <input type="hidden" name="token" value={signed.token} />
    <input type="hidden" name="once" value={crypto.randomUUID()} />
    <input type="hidden" name="back" value={back ?? signed.here} />
  </>
);

/**
 * One button that does one thing.
 * @param fields what it sends; null and undefined are left out
 * @param about read out after the label where several buttons of one label stand on a page
 */
export const Press: FC<{
  signed: Signed;
  to: string;
  fields: Readonly<Record<string, string | null | undefined>>;
  label: Child;
  about?: string;
  kind?: "first" | "quiet" | "alarm" | "plain";
  back?: string;
  children?: Child;
}> = ({ signed, to, fields, label, about, kind = "quiet", back, children }) => (
  <form method="post" action={to} class="press">
    <Fields signed={signed} back={back} />
    {Object.entries(fields).map(([name, value]) =>
      value === null || value === undefined ? null : <input type="hidden" name={name} value={value} />,
    )}
    <button type="submit" class={kind}>
      {label}
      {about === undefined ? null : <span class="unseen"> {about}</span>}
    </button>
    {children}
  </form>
);
