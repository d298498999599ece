/** The head of a printed plan: what to do next, at bench, booth and ovens together. */
import { benchTasks, boothTasks, order } from "./hands.ts";
import { pad, wrap } from "./lines.ts";
import { coatsText, ovenOf } from "./plan-words.ts";
import type { Printed } from "./plan-words.ts";

interface Step {
  readonly at: string;
  readonly what: string;
}

const MOST_STEPS = 6;

export function nextLines(printed: Printed): string[] {
  const { clock, from } = printed;
  const steps = [...handSteps(printed), ...ovenSteps(printed)]
    .filter(({ at }) => order(at, from) >= 0)
    .toSorted((a, b) => order(a.at, b.at))
    .slice(0, MOST_STEPS)
    .map(({ at, what }) => ({ time: clock.time(at), what }));
  const width = Math.max(...steps.map(({ time }) => time.length), 0);
  return steps.flatMap(({ time, what }) => wrap(what, `  ${pad(time, width)}  `, " ".repeat(width + 4)));
}

function handSteps(printed: Printed): Step[] {
  const minutes = (task: { readonly from: string; readonly to: string }) => order(task.to, task.from) / 60_000;
  return [...benchTasks(printed), ...boothTasks(printed)].map((task) => ({
    at: task.from,
    what: `${task.who}: ${task.what} (${minutes(task)} min)`,
  }));
}

function ovenSteps({ day, plan }: Printed): Step[] {
  return plan.loads.flatMap((load) => {
    const { name } = ovenOf(day, load.oven);
    const at = load.setPointC === null ? "" : `, set-point ${load.setPointC} °C`;
    if (load.kind !== "bake") {
      return [{ at: load.doorClosesAt, what: `${name}: purge, then ${load.kind} ${load.id}${at}, oven empty` }];
    }
    const off = load.burnerOffAt === null ? [] : [{ at: load.burnerOffAt, what: `${name}: burner off for ${load.id}` }];
    return [
      { at: load.doorOpensAt, what: `${name}: open the door and load ${load.id} (${coatsText(day, load)})${at}` },
      ...off,
      { at: load.unloadAt, what: `${name}: open the door and unload ${load.id}` },
    ];
  });
}
