/** What a plan may not say of a load that is fired in a fixed cycle. */
import type { Report } from "./fault.ts";
import type { Load } from "./plan-view.ts";
import { loadName } from "./words.ts";

/** A fixed cycle predicts no metal and no chamber, so the plan may say nothing of them. */
export function checkNothingPredicted(load: Load, report: Report): void {
  const { said, path } = load;
  const nothing = (field: string, value: number | string | null): void => {
    if (value === null) return;
    report({
      rule: "said",
      path: field,
      message: `${loadName(load)} is fired in a fixed cycle, yet ${field} says ${value}.`,
      said: value,
    });
  };
  nothing(`${path}.setPointC`, said.setPointC);
  nothing(`${path}.burnerOnAt`, said.burnerOnAt);
  nothing(`${path}.setPointAt`, said.setPointAt);
  nothing(`${path}.burnerOffAt`, said.burnerOffAt);
  nothing(`${path}.chamberStartC`, said.chamberStartC);
  nothing(`${path}.slackMinutes`, said.slackMinutes);
  nothing(`${path}.curve`, said.curve.length === 0 ? null : said.curve.length);
  for (const { path: at, said: pan } of load.pans) {
    nothing(`${at}.inWindowAt`, pan.inWindowAt);
    nothing(`${at}.soakMinutes`, pan.soakMinutes);
    nothing(`${at}.peakC`, pan.peakC);
  }
}
