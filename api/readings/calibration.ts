/** An oven's figures proposed from its readings: a person looks at them and puts them into the oven, or does not. */
import type { CalibrationAnswer } from "../contract/calibrating.ts";
import { ovenSchema } from "../contract/oven.ts";
import type { DayFile } from "../contract/day.ts";
import { conflict, notFound } from "../http/failure.ts";
import type { App } from "../http/app-parts.ts";
import { etag } from "../http/route.ts";
import { shopTime } from "../shop/instants.ts";
import { rowOf } from "../store/change.ts";
import type { ReadingRow } from "../store/tables.ts";
import { calibrateOven, calibratedFigures } from "../../solver/index.ts";
import type { CalibratedFigure, OvenCalibration } from "../../solver/index.ts";
import { calibrationWords } from "./calibration-words.ts";
import type { FiredDay } from "./fired-days.ts";
import { firedDays } from "./fired-days.ts";
import { loggedFiring } from "./logged-firing.ts";
import type { ReadAt } from "./logged-firing.ts";

type OvenFile = DayFile["ovens"][number];

/** More firings say no more, and the fit takes its time with each. */
const mostFirings = 12;

/** `from`: milliseconds; only readings since then. Throws 404 and, where there is nothing to go by, 409. */
export async function calibrationOf(app: App, id: string, from: number): Promise<CalibrationAnswer> {
  const { db } = app.store;
  const row = await rowOf(db, "oven", id);
  if (row === undefined) throw notFound(`oven ${id}`);
  const written = JSON.parse(row.body) as OvenFile;
  const { cycle } = ovenSchema.parse(written);
  if (cycle.kind === "fixed") throw conflict(`${id} has a fixed cycle: there are no figures of it to find.`);
  const days = await firedDays(db, app.clock.now());
  const readings = (await db.selectFrom("reading").selectAll().where("oven", "=", id).orderBy("id").execute())
    .flatMap((one) => readAt(one, days.at(-1)))
    .filter(({ at }) => at >= from)
    .toSorted((a, b) => a.at - b.at);
  const firings = days
    .flatMap(({ day, loads }) => {
      const own = loads.filter(({ oven }) => oven === id);
      return own.flatMap(
        (load, i) => loggedFiring({ day, load, before: own[i - 1], next: own[i + 1] }, readings) ?? [],
      );
    })
    .slice(-mostFirings);
  if (firings.length === 0)
    throw conflict(
      `No reading of ${id} was taken at a firing that is over: read chamber, metal and meter at one first.`,
    );
  // What planning starts from says nothing about how the oven heats.
  const found = calibrateOven({ ...cycle, startC: cycle.startC ?? 0 }, firings);
  const figures = calibratedFigures.map((figure) => proposal(figure, cycle[figure], found));
  const told = Object.fromEntries(figures.flatMap((one) => (one.told ? [[one.figure, one.proposed]] : [])));
  const answer = {
    oven: id,
    firings: firings.length,
    readings: found.after.readings,
    figures,
    residualNow: found.before,
    residualProposed: found.after.residual,
    proposedOven: { ...written, cycle: { ...written.cycle, ...told } },
    etag: etag(row.version),
  };
  return { ...answer, words: calibrationWords(answer) };
}

function proposal(
  figure: CalibratedFigure,
  now: number,
  { after }: OvenCalibration,
): CalibrationAnswer["figures"][number] {
  const { value, errorShare, identifiable } = after.fitted[figure];
  const proposed = Number(value.toPrecision(3));
  return { figure, now, proposed, errorPercent: Number((100 * errorShare).toFixed(1)), told: identifiable };
}

function readAt({ at, body }: Pick<ReadingRow, "at" | "body">, last: FiredDay | undefined): ReadAt[] {
  const read = JSON.parse(body) as Partial<Omit<ReadAt, "at">>;
  const instant = last === undefined ? Date.parse(at) : shopTime(last.day).millis(at);
  if (!Number.isFinite(instant)) return [];
  const { pan = null, chamberC = null, metalC = null, meterUnits = null } = read;
  return [{ at: instant, pan, chamberC, metalC, meterUnits }];
}
