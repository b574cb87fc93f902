// The usual band as a layer below the suspect's sensors.

import type { Accessor } from "solid-js";
import { linesOf } from "../../drawing/layer.ts";
import type { LayerKind } from "../lanes/layers.ts";
import type { UsualBand } from "./band.ts";
import type { Reference } from "./reference.ts";

export function createUsualLayer(band: UsualBand, reference: Accessor<Reference | null>): LayerKind {
  return {
    lay(lanes) {
      const layers = band.layers();
      if (!reference() || layers.length === 0) return lanes;
      const sensors = lanes.find((lane) => linesOf(lane).some(({ look }) => look === "rear"));
      return lanes.map((lane) => (lane === sensors ? { ...lane, layers: [...lane.layers, ...layers] } : lane));
    },
    statements() {
      const theirs = reference();
      return theirs && band.isShown() && band.events() > 1 ? [inWords(theirs.name, band)] : [];
    },
  };
}

function inWords(name: string, { events, members }: UsualBand): string {
  const names = [name, ...members().map((one) => one.name)].join("; ");
  return `Hatched: what is usual, median (chain line) and 5 to 95 % of ${events()} lift-offs of ${names}.`;
}
