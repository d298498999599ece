import { describe, expect, it } from "vitest";
import { dayByPiece, pieceNames, piecesOf } from "../../../../api/shop/pieces.ts";
import type { PanFile } from "../../../../api/shop/pieces.ts";
import { shopDay } from "../../../help/service.ts";

const pan = (id: string, quantity?: number): PanFile => ({
  ...shopDay("small-morning").pans[0]!,
  id,
  ...(quantity === undefined ? {} : { quantity }),
  ticket: "T",
});

describe("alike pans told apart", () => {
  it("get a name each, and a single pan keeps its own", () => {
    const single = { ...pan("A"), quantity: 1 };
    expect(piecesOf([single, pan("B", 3)]).map(({ id }) => id)).toEqual(["A", "B.1", "B.2", "B.3"]);
  });

  it("never take a name that another pan has", () => {
    const pieces = piecesOf([pan("B", 2), { ...pan("B.1"), quantity: 1 }]).map(({ id }) => id);
    expect(pieces).toEqual(["B..1", "B..2", "B.1"]);
    expect(pieceNames([pan("B", 2)]).get("B")).toEqual(["B.1", "B.2"]);
  });

  it("stay of one ticket, with held loads and places in force naming the piece", () => {
    const day = {
      ...shopDay("small-morning"),
      pans: [{ ...pan("B", 2), ticket: undefined as never }],
      inForce: [{ id: "B", item: 2, doorOpensAt: "2026-06-09T09:00" }],
    };
    const named = dayByPiece(day);
    expect(named.pans.map(({ ticket }) => ticket)).toEqual(["B", "B"]);
    expect(named.inForce).toEqual([{ id: "B.2", item: 1, doorOpensAt: "2026-06-09T09:00" }]);
  });
});
