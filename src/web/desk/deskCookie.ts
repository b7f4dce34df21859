/** How the desk's cookies are kept: seen by no script, sent by no other site, and over https alone where there is any. */
export const ofDesk = (url: string) =>
  ({ path: "/desk", httpOnly: true, sameSite: "Lax", secure: new URL(url).protocol === "https:" }) as const;
