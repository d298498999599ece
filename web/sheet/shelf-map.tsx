/** Shelves drawn to one scale, warm to cool, with every pan where it stands. Seen from above, the door side below. */
import type { PlanLoad } from "../../api/contract/plan.ts";
import { ovenOf, panOf, pieceName } from "../parts/day-lookup.ts";
import { lengths, temperatureStep } from "../parts/figures.ts";
import type { Planned } from "../parts/day-lookup.ts";
import { words } from "../shell/words-en.ts";

export function ShelfMaps({ planned: { day }, load }: { readonly planned: Planned; readonly load: PlanLoad }) {
  const space = ovenOf(day, load.oven)?.space;
  if (space?.kind !== "shelves") return <p>{words.areaOven}</p>;
  const shelves = space.shelves.toSorted((a, b) => (b.offsetC ?? 0) - (a.offsetC ?? 0));
  const widest = Math.max(...shelves.map(({ widthCm }) => widthCm));
  return (
    <div class="shelves">
      {shelves.map((shelf) => (
        <figure>
          <figcaption>
            {words.shelf(shelf.id, lengths(shelf.widthCm, shelf.depthCm))}, {temperatureStep(shelf.offsetC ?? 0)}
          </figcaption>
          <svg
            viewBox={`-1 -1 ${widest + 2} ${shelf.depthCm + 2}`}
            role="img"
            aria-label={words.shelf(shelf.id, lengths(shelf.widthCm, shelf.depthCm))}
          >
            <rect class="shelf" x={0} y={0} width={shelf.widthCm} height={shelf.depthCm} />
            {load.pans
              .filter((pan) => pan.shelf === shelf.id)
              .map((pan) => (
                <Placed pan={pan} depthCm={shelf.depthCm} planned={{ day }} />
              ))}
          </svg>
        </figure>
      ))}
    </div>
  );
}

interface PlacedParts {
  readonly pan: PlanLoad["pans"][number];
  readonly depthCm: number;
  readonly planned: Pick<Planned, "day">;
}

function Placed({ pan, depthCm, planned: { day } }: PlacedParts) {
  const shape = panOf(day, pan.id)?.shape;
  if (pan.xCm === null || pan.yCm === null || shape === undefined || shape.kind === "area") return null;
  const x = pan.xCm;
  const y = depthCm - pan.yCm;
  const [wide, deep] =
    shape.kind === "disc"
      ? [shape.diameterCm, shape.diameterCm]
      : pan.turned
        ? [shape.depthCm, shape.widthCm]
        : [shape.widthCm, shape.depthCm];
  const name = pieceName(day, pan);
  return (
    <g class="pan">
      {shape.kind === "disc" ? (
        <circle cx={x} cy={y} r={wide / 2} />
      ) : (
        <rect x={x - wide / 2} y={y - deep / 2} width={wide} height={deep} />
      )}
      <text x={x} y={y + 1} text-anchor="middle" font-size={Math.min(4, (wide * 1.5) / name.length)}>
        {name}
      </text>
    </g>
  );
}
