/** Why not? May these share a firing; and the metals drawn over their windows. */
import { failureSchema } from "../contract/answers.ts";
import type { ExplainAnswer } from "../contract/explaining.ts";
import { explainAnswerSchema, explainAskSchema } from "../contract/explaining.ts";
import { reasonSentence } from "../contract/words.ts";
import { toRequest } from "../day/to-solver.ts";
import { route } from "../http/route.ts";
import type { Route } from "../http/route.ts";
import { explainTogether } from "../../solver/index.ts";
import type { SharedAnswer } from "../../solver/index.ts";
import { questionOf } from "./asked.ts";
import type { Question } from "./asked.ts";
import { drawnFiring } from "./drawing.ts";

export function explainRoutes(): Route[] {
  return [explainRoute];
}

const explainRoute = route(
  {
    method: "post",
    path: "/explain",
    tag: "plans",
    summary: "May two pans, or a pan and a load, share a firing; if not, why, with both metals' curves",
    body: explainAskSchema,
    keyed: false,
    answers: { 200: explainAnswerSchema, 404: failureSchema, 409: failureSchema },
  },
  async ({ app, body }) => {
    const question = await questionOf(app, body.one, body.other);
    const answer = explainTogether(toRequest(question.day), question.bakes, question.oven);
    return { status: 200, body: told(question, [body.one, body.other], answer) };
  },
);

function told({ day }: Question, [one, other]: readonly [string, string], answer: SharedAnswer): ExplainAnswer {
  const ovenId = (index: number | null): string | null => (index === null ? null : (day.ovens[index]?.id ?? null));
  const firing = answer.drawing === null ? null : drawnFiring(day, answer.drawing);
  if (!answer.shares) {
    const reasons = answer.reasons.map(({ code, numbers, oven }) => ({ code, numbers, oven: ovenId(oven) }));
    const words = reasons.map(
      (reason) => `${one} and ${other}${reason.oven === null ? "" : ` in ${reason.oven}`}: ${reasonSentence(reason)}.`,
    );
    const none = { oven: null, setPointC: null, burnerOffMinutes: null, slackMinutes: null, gasKWh: null };
    return { shares: false, words, ...none, reasons, firing };
  }
  const { setPointC, burnerOffMinutes, slackMinutes, gasKWh } = answer;
  const oven = ovenId(answer.oven);
  const heat =
    setPointC === null
      ? ""
      : ` at ${setPointC} °C, burner off ${burnerOffMinutes} min after the door closes, with ${slackMinutes} min of slack`;
  const words = [`${one} and ${other} may share a firing in ${oven}${heat}.`];
  return { shares: true, words, oven, setPointC, burnerOffMinutes, slackMinutes, gasKWh, reasons: [], firing };
}
