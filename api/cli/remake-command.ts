/** `remake`: makes a plan of the shop's file again and says whether it is the same. */
import { engine } from "../planning/course.ts";
import { NotRemakable, remade } from "../plans/remake.ts";
import type { Remade } from "../plans/remake.ts";
import { keptPlan } from "../store/commands.ts";
import { textOption } from "./arguments.ts";
import type { Arguments } from "./arguments.ts";
import { BadInput } from "./bad-input.ts";
import { exitCode } from "./exit-code.ts";
import { writeNew } from "./files.ts";
import { figure } from "./lines.ts";
import { withShopFile } from "./shop-file.ts";
import type { Terminal } from "./terminal.ts";

export async function runRemake(args: Arguments, { out }: Terminal): Promise<number> {
  const id = args.words[0] ?? "";
  const target = textOption(args, "out");
  const row = await withShopFile((shop) => keptPlan(shop, id));
  const again = remadeOrRefused(() => remade(row));
  if (target !== undefined) await writeNew(target, `${JSON.stringify(again.plan, null, 2)}\n`);
  out(`${row.id}, made ${again.plan.madeAt}: ${searchWords(again)}.\n`);
  out(again.same ? "Made again it is the same to the byte.\n" : differsWords(again));
  return again.same ? exitCode.ok : exitCode.fault;
}

function remadeOrRefused(make: () => Remade): Remade {
  try {
    return make();
  } catch (error) {
    throw error instanceof NotRemakable ? new BadInput(error.message) : error;
  }
}

function searchWords({ course, options }: Remade): string {
  const { steps, seconds, stoppedAt, cutAt, pauses, bounds, offers } = course;
  const by = steps === null ? `${figure(seconds)} s by the clock` : `${steps} steps`;
  const cut = stoppedAt !== null ? ", stopped" : cutAt !== null ? ", cut short by the clock" : "";
  const interim = pauses === null ? "" : ", the best found by then";
  const beside =
    bounds.length + offers.length === 0
      ? ""
      : `, with ${offers.length} sequences and ${bounds.length} bounds from beside`;
  return `seed ${options.seed}, ${by}${cut}${interim}${beside}`;
}

function differsWords({ course }: Remade): string {
  const here = engine();
  if (course.engine === here) return "Made again it is NOT the same.\n";
  return `Made again it is NOT the same. It was reckoned by ${course.engine}; here it is ${here}, which may round otherwise.\n`;
}
