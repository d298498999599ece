/** The token shown once, a session for it, and its end. */
import { failureSchema, loginSchema } from "../contract/answers.ts";
import { Refusal } from "../http/failure.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { isSecret } from "./guards.ts";
import { endSession, openSession } from "./session.ts";
import type { Doorman } from "./session.ts";

export function sessionRoutes(doorman: Doorman): Route[] {
  return [loginRoute(doorman), logoutRoute(doorman)];
}

function loginRoute(doorman: Doorman): Route {
  return route(
    {
      method: "post",
      path: "/session",
      tag: "service",
      summary: "Show the shop's token once; a cookie that no script can read does the rest",
      open: true,
      keyed: false,
      body: loginSchema,
      answers: { 204: null, 401: failureSchema },
    },
    async ({ body }) => {
      if (doorman.token !== null && !isSecret(body.token, doorman.token))
        throw new Refusal(401, "Wrong token", "That is not the shop's token.");
      const cookie = await openSession(doorman);
      return { status: 204, headers: { "Set-Cookie": cookie } };
    },
  );
}

function logoutRoute(doorman: Doorman): Route {
  return route(
    { method: "delete", path: "/session", tag: "service", summary: "Log out", answers: { 204: null } },
    async (_asked, request) => {
      const cookie = await endSession(request, doorman);
      return { status: 204, headers: { "Set-Cookie": cookie } };
    },
  );
}
