/** The bench list and the booth list of a printed plan, in time order. */
import { benchTasks, boothTasks } from "./hands.ts";
import type { HandTask } from "./hands.ts";
import { pad, wrap } from "./lines.ts";
import type { Printed } from "./plan-words.ts";

/** Empty where there is no bench work. */
export function benchLines(printed: Printed): string[] {
  return taskLines(printed, benchTasks(printed));
}

/** Empty where nothing is sprayed. */
export function boothLines(printed: Printed): string[] {
  return taskLines(printed, boothTasks(printed));
}

function taskLines({ clock, day, plan }: Printed, tasks: readonly HandTask[]): string[] {
  const opens = new Map(plan.loads.map((load) => [load.id, load.doorOpensAt]));
  const rows = tasks.map((task) => ({ ...task, span: `${clock.time(task.from)}–${clock.time(task.to)}` }));
  const width = Math.max(...rows.map((row) => row.span.length), 0);
  const whoWidth = Math.max(...rows.map((row) => row.who.length), 0);
  return rows.flatMap((row) => {
    const start = `  ${pad(row.span, width)}  ${pad(row.who, whoWidth)}  `;
    const door = row.load === undefined ? undefined : opens.get(row.load);
    const goal = door === undefined ? "" : ` — for ${row.load}, door opens ${clock.time(door)}`;
    const indent = " ".repeat(start.length);
    const change = row.change === undefined ? [] : wrap(changeText(row.change, day.booth.changeoverMinutes), indent);
    return [...change, ...wrap(row.what + goal, start, indent)];
  });
}

function changeText(change: string, minutes: number): string {
  return `(change the gun: ${change}${minutes > 0 ? `, ${minutes} min` : ""})`;
}
