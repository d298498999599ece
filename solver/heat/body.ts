/** What a pan is to the oven: the area that takes heat, the area that is coated, and the heat it stores. */
import type { PanLine } from "../shop.ts";

/** One pan. Areas in m²; `heatJPerK` is mass times specific heat. */
export interface Body {
  /** Inside and outside of base and wall. 0 for a shape given as an area, which only a fixed cycle takes. */
  readonly exchangeM2: number;
  /** Inside of base and wall; the footprint, for a shape given as an area. */
  readonly coatedM2: number;
  readonly heatJPerK: number;
}

/** A pan seen as an open box or cylinder: base plus wall, heated on both sides, coated inside. */
export function bodyOf(line: Pick<PanLine, "shape" | "heightCm" | "massKg" | "specificHeatJPerKgK">): Body {
  const insideM2 = insideAreaM2(line.shape, line.heightCm);
  return {
    exchangeM2: line.shape.kind === "area" ? 0 : 2 * insideM2,
    coatedM2: insideM2,
    heatJPerK: line.massKg * line.specificHeatJPerKgK,
  };
}

function insideAreaM2(shape: PanLine["shape"], heightCm: number): number {
  const heightM = heightCm / 100;
  switch (shape.kind) {
    case "disc": {
      const diameterM = shape.diameterCm / 100;
      return (Math.PI / 4) * diameterM * diameterM + Math.PI * diameterM * heightM;
    }
    case "rectangle": {
      const widthM = shape.widthCm / 100;
      const depthM = shape.depthCm / 100;
      return widthM * depthM + 2 * (widthM + depthM) * heightM;
    }
    case "area":
      return shape.dm2 / 100;
  }
}
