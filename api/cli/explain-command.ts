/** `explain`: may two pans share a firing? Yes with set-point and minutes, or no with every reason. */
import type { Day } from "../contract/day.ts";
import { reasonSentence } from "../contract/words.ts";
import { nearest } from "../day/nearest.ts";
import { toRequest } from "../day/to-solver.ts";
import { explainPair } from "../../solver/index.ts";
import type { SharedAnswer } from "../../solver/index.ts";
import type { Arguments } from "./arguments.ts";
import { BadInput } from "./bad-input.ts";
import { readDayInput } from "./day-input.ts";
import { exitCode } from "./exit-code.ts";
import { figure, wrap } from "./lines.ts";
import { coatOf } from "./plan-words.ts";
import type { Terminal } from "./terminal.ts";

export async function runExplain(args: Arguments, io: Terminal): Promise<number> {
  const [dayPath = "", one = "", other = ""] = args.words;
  const json = args.values["json"] === true;
  const day = await readDayInput(dayPath, io, json);
  const lines = [lineOf(day, one), lineOf(day, other)] as const;
  if (one === other && day.pans[lines[0]]?.quantity === 1)
    throw new BadInput(`${one} is a single piece: name two pans, or a line of several pieces twice.`);
  const answer = explainPair(toRequest(day), ...lines);
  io.out(
    json
      ? `${JSON.stringify(inIds(day, answer), null, 2)}\n`
      : `${answerLines(day, [one, other], answer).join("\n")}\n`,
  );
  return exitCode.ok;
}

function lineOf(day: Day, id: string): number {
  const ids = day.pans.map((pan) => pan.id);
  const index = ids.indexOf(id);
  if (index >= 0) return index;
  const near = nearest(id, ids);
  throw new BadInput(`The day has no pan ${id}.${near === undefined ? "" : ` Did you mean ${near}?`}`);
}

function ovenName(day: Day, oven: number | null): string | null {
  return oven === null ? null : (day.ovens[oven]?.name ?? null);
}

/** Ids for indices and words for codes. */
function inIds(day: Day, { drawing: _drawn, ...answer }: SharedAnswer): object {
  if (answer.shares) return { ...answer, oven: day.ovens[answer.oven]?.id };
  const reasons = answer.reasons.map(({ oven, code, numbers }) => ({
    oven: oven === null ? null : day.ovens[oven]?.id,
    code,
    numbers,
    message: reasonSentence({ code, numbers }),
  }));
  return { shares: false, reasons };
}

function answerLines(day: Day, ids: readonly string[], answer: SharedAnswer): string[] {
  const pair = ids.map((id) => nextCoatText(day, id)).join(" and ");
  if (answer.shares)
    return wrap(`Yes: ${pair} may share a firing in ${ovenName(day, answer.oven)}${firingText(answer)}.`, "", "  ");
  return [
    ...wrap(`No: ${pair} share no firing.`, "", "  "),
    ...answer.reasons.flatMap((reason) => {
      const oven = ovenName(day, reason.oven);
      return wrap(`${oven === null ? "" : `${oven}: `}${reasonSentence(reason)}.`, "  - ", "    ");
    }),
  ];
}

function nextCoatText(day: Day, id: string): string {
  const pan = day.pans.find((one) => one.id === id);
  return pan ? `${id} (${coatOf(day, { id, coat: pan.nextCoat }).name})` : id;
}

function firingText({
  setPointC,
  burnerOffMinutes,
  slackMinutes,
  gasKWh,
}: Extract<SharedAnswer, { shares: true }>): string {
  const gas = `${figure(gasKWh)} kWh`;
  if (setPointC === null) return `: door closed ${burnerOffMinutes} min, ${gas}`;
  const later = slackMinutes === null ? "" : ` and up to ${slackMinutes} min later`;
  return `: set-point ${setPointC} °C, burner off ${burnerOffMinutes} min after the door closes${later}, ${gas}`;
}
