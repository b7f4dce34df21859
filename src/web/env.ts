/** What the deployment gives the service, and what each request carries through it. */
import type { Salon } from "../salon/salon.ts";
import type { SalonEnv } from "../salon/SalonBase.ts";

export interface Env extends SalonEnv {
  readonly OPERATOR_KEY: string;
  readonly SALON: DurableObjectNamespace<Salon>;
}

/** Hono's type of this service. */
export interface Service {
  Bindings: Env;
  Variables: { salon: DurableObjectStub<Salon>; salonId: string };
}

/** Secrets that must be set, and are not. */
export const missingSecrets = (env: Partial<Env>): readonly string[] =>
  env.OPERATOR_KEY && env.LINK_SECRET ? NONE : (["OPERATOR_KEY", "LINK_SECRET"] as const).filter((name) => !env[name]);

const NONE: readonly string[] = [];

export const salonNamed = (env: Env, id: string): DurableObjectStub<Salon> => env.SALON.get(env.SALON.idFromName(id));

export const originOf = (env: Env, request: Request): string => env.PUBLIC_ORIGIN ?? new URL(request.url).origin;
