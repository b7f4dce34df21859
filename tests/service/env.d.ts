/** What the tests' environment holds. */
declare namespace Cloudflare {
  interface Env extends import("../../src/web/env.ts").Env {}
  interface GlobalProps {
    mainModule: typeof import("../../src/index.ts");
    durableNamespaces: "Salon";
  }
}
