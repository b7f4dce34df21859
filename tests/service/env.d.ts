/** What the tests' environment holds. */
import type { Env as ServiceEnv } from "../../src/web/env.ts";

declare global {
  namespace Cloudflare {
    interface Env extends ServiceEnv {}
    interface GlobalProps {
      mainModule: typeof import("../../src/index.ts");
      durableNamespaces: "Salon";
    }
  }
}
