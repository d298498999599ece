/** Asks the service about the close of day, closes it, reads closed days. */
import type { ClosedDayWithFiles, DaySummary, SavedSpans } from "../../api/contract/closed-day.ts";
import { ask } from "../shell/service.ts";
import { signed } from "../shell/who.ts";

export type ClosePreview = SavedSpans & { readonly summary: DaySummary };
export type ClosedDay = Omit<ClosedDayWithFiles, "day" | "planFile" | "plans">;

export const previewClose = (): Promise<ClosePreview> => ask("GET", "/day/close");
export const closeDay = (): Promise<ClosedDay> => ask("POST", "/day/close", signed({}));
/** Newest first. */
export const closedDays = async (): Promise<readonly ClosedDay[]> =>
  (await ask<{ days: ClosedDay[] }>("GET", "/days")).days.toSorted((a, b) => b.id - a.id);
export const filesOf = (id: string): string => `/days/${encodeURIComponent(id)}`;
export const readClosed = (id: string): Promise<ClosedDayWithFiles> => ask("GET", filesOf(id));
export const keepLevel = (oven: string, meterUnits: number): Promise<unknown> =>
  ask("POST", "/readings", { oven, meterUnits });
