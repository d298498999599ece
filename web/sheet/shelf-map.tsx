/** Shelves drawn to one scale, warm to cool, with every pan where it stands. Seen from above, the door side below. */
import type { DayFile } from "../../api/contract/day.ts";
import type { PlanLoad } from "../../api/contract/plan.ts";
import { ovenOf, panOf, pieceName } from "../parts/day-lookup.ts";
import { lengths, temperatureStep } from "../parts/figures.ts";
import { words } from "../shell/words-en.ts";
import type { SheetPart } from "./load-sheet.tsx";

export function ShelfMaps({ planned: { day }, one: { load } }: SheetPart) {
  const space = ovenOf(day, load.oven)?.space;
  if (space?.kind !== "shelves") return <p>{words.sheet.areaOven}</p>;
  const shelves = space.shelves.toSorted((a, b) => (b.offsetC ?? 0) - (a.offsetC ?? 0));
  const widest = Math.max(...shelves.map(({ widthCm }) => widthCm));
  return (
    <section>
      <h2>{words.sheet.shelves}</h2>
      <div class="shelves">
        {shelves.map((shelf) => {
          const own = load.pans.filter((pan) => pan.shelf === shelf.id);
          const name = words.sheet.shelf(shelf.id, temperatureStep(shelf.offsetC ?? 0));
          return (
            <figure>
              <figcaption>
                <strong>{name}</strong> <small>{lengths(shelf.widthCm, shelf.depthCm)}</small>
              </figcaption>
              <svg viewBox={`-1 -1 ${widest + 2} ${shelf.depthCm + 2}`} role="img" aria-label={name}>
                <rect class="shelf" x={0} y={0} width={shelf.widthCm} height={shelf.depthCm} />
                <line class="door" x1={0} x2={shelf.widthCm} y1={shelf.depthCm} y2={shelf.depthCm} />
                {own.length === 0 && (
                  <text
                    class="unused"
                    x={shelf.widthCm / 2}
                    y={shelf.depthCm / 2 + 2}
                    text-anchor="middle"
                    font-size={6}
                  >
                    {words.sheet.unused}
                  </text>
                )}
                {own.map((pan) => (
                  <Placed pan={pan} depthCm={shelf.depthCm} day={day} />
                ))}
              </svg>
            </figure>
          );
        })}
      </div>
    </section>
  );
}

interface PlacedParts {
  readonly pan: PlanLoad["pans"][number];
  readonly depthCm: number;
  readonly day: DayFile;
}

function Placed({ pan, depthCm, day }: PlacedParts) {
  const body = panOf(day, pan.id);
  if (pan.xCm === null || pan.yCm === null || body === undefined || body.shape.kind === "area") return null;
  const { shape } = body;
  const x = pan.xCm;
  const y = depthCm - pan.yCm;
  const [wide, deep] =
    shape.kind === "disc"
      ? [shape.diameterCm, shape.diameterCm]
      : pan.turned
        ? [shape.depthCm, shape.widthCm]
        : [shape.widthCm, shape.depthCm];
  const name = pieceName(day, pan);
  const ticket = body.ticket ?? body.id;
  const size = Math.min(5, (wide * 1.55) / Math.max(name.length, ticket.length));
  return (
    <g class="pan">
      {shape.kind === "disc" ? (
        <circle cx={x} cy={y} r={wide / 2} />
      ) : (
        <rect x={x - wide / 2} y={y - deep / 2} width={wide} height={deep} />
      )}
      <text
        class="panname"
        x={x}
        y={ticket === name ? y + size * 0.35 : y - size * 0.1}
        text-anchor="middle"
        font-size={size}
      >
        {name}
      </text>
      {ticket !== name && (
        <text x={x} y={y + size} text-anchor="middle" font-size={size * 0.85}>
          {ticket}
        </text>
      )}
    </g>
  );
}
