// What the two recordings of a comparison are called on the customer's picture: nobody there knows a suspect and a reference.

import type { CaptureRecord } from "../../job/record/job.ts";
import type { LaneLook } from "../../plot/stage/types.ts";
import type { SheetDimension } from "../../report/exhibit/sheet.ts";
import { referenceId } from "../comparing/counterparts.ts";
import type { Reference } from "../comparing/reference.ts";

export interface EverydayNames {
  readonly suspect: string;
  readonly reference: string;
}

type Stage = CaptureRecord["stage"];

/** Before and after the repair it is one car; else this one and another. */
export function everydayNames(own: Stage, kind: Reference["kind"], other: Stage): EverydayNames {
  const suspect = ownWords(own);
  if (kind !== "job") return { suspect, reference: "a sound car like it" };
  return { suspect, reference: other === "donor" ? "another, sound car" : repairWords(other, "the other recording") };
}

const ownWords = (stage: Stage): string => (stage === "donor" ? "another, sound car" : repairWords(stage, "this car"));

const repairWords = (stage: Stage, otherwise: string): string =>
  stage === "before" || stage === "after" ? `${stage} the repair` : otherwise;

/** Lines and lanes of the reference. */
export function laneForCustomer(lane: LaneLook, { reference }: EverydayNames): LaneLook {
  const layers = lane.layers.map((layer) => {
    if (layer.source !== "reference") return layer;
    return {
      ...layer,
      label: `${sideWords[layer.look]}${reference}`,
      ...("of" in layer ? { of: reference } : {}),
    };
  });
  const isTheirs = lane.id.startsWith(referenceId(""));
  return { ...lane, layers, ...(isTheirs ? { title: capital(reference) } : {}) };
}

const sideWords = { front: "Front: ", rear: "Rear: ", other: "" } as const;

/** The delay of one of the two. */
export const dimensionForCustomer = (one: SheetDimension, names: EverydayNames): SheetDimension =>
  one.whose ? { ...one, label: delayLabel(names[one.whose]) } : one;

export const delayLabel = (whose: string): string => `${whose}, front to rear`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
