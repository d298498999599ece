/** Small helpers for the checker's sentences. */
import type { Load } from "./plan-view.ts";

export function loadName(load: Load): string {
  return `${load.said.kind === "bake" ? "Load" : load.said.kind === "preheat" ? "Preheat" : "Clean burn"} ${load.said.id}`;
}

export function pieceName(key: string): string {
  const at = key.lastIndexOf("#");
  return `${key.slice(0, at)} item ${key.slice(at + 1)}`;
}
