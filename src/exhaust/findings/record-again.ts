// Next steps that ask for a recording or a comparison: the findings take them from here, so that it is known what each asks for.

import { askedRate } from "../../signal/numbers/asked-rate.ts";

/** Both sensors once more. */
export const again = {
  faster: `Record at ${askedRate}.`,
  bothFaster: `Record front and rear at ${askedRate}.`,
  rearBesideFront: "Record the rear oxygen sensor together with the front one.",
  frontBesideRear: "Record the front oxygen sensor together with the rear one.",
  idle: "Record idle for 60 s.",
  cruise: `Record steady cruise for 60 s, warm and in closed loop, at ${askedRate}.`,
  cruiseWithSpeed: "Record steady cruise for 60 s, warm and in closed loop, with engine speed.",
  cruiseWithFlow: "Record steady cruise for 60 s, warm and in closed loop, with air flow.",
  cruiseAsWitness: "Record steady cruise for 60 s as a second witness.",
  cruiseAndFlow: `Record steady cruise for 60 s at ${askedRate}, and the air flow with the lift-offs.`,
  cruiseAndLiftOffs: "Record steady cruise for 60 s with engine speed and air flow, and three lift-offs.",
  higherFlow: `Record steady cruise at a higher air flow for 60 s, and three lift-offs, at ${askedRate}.`,
  besideKnownGood:
    "Compare with a known-good recording at the same air flow, and record steady cruise at a higher flow.",
  hot: "Drive it hot, then record steady cruise for 60 s with engine speed, and three lift-offs.",
  oneRecording: "Repeat steady cruise and three lift-offs in one recording, at the same engine speed.",
  lowerSpeed:
    "Repeat the lift-offs from a lower engine speed with air flow recorded, and steady cruise at a higher flow.",
  liftOffs: `Record three lift-offs at ${askedRate}.`,
  liftOffsAsWitness: "Record three lift-offs as a second witness.",
  liftOffsWithSpeed: "Record three lift-offs with throttle and engine speed.",
  liftOffsWithFlow: "Record three lift-offs with throttle, engine speed and air flow.",
  liftOffsFromPull: "Record three lift-offs from a hard pull, with throttle, engine speed and air flow.",
  fallOfRear: `Record three lift-offs at ${askedRate}: they show how quickly the rear sensor falls.`,
  fallAtOnce: `Record three lift-offs at ${askedRate}, with air flow: a rear that falls at once would settle it.`,
  pullAndLiftOff: "Record a hard pull and a lift-off: a rear sensor that is awake shows both.",
  pullBehindLeak:
    "Record a hard pull of three seconds and a lift-off after it: behind a leak the rear turns rich in the pull.",
} as const;

/** The front sensor alone. */
export const frontAgain = {
  warm: `Record the front sensor warm, in closed loop, for 60 s at ${askedRate}.`,
  cruise: `Record the front sensor at cruise for 60 s at ${askedRate}.`,
} as const;

export const recordTrims = "Record short and long fuel trim, at idle and at steady cruise.";

/** What is recorded beside the sensors. */
export const recordFlow = {
  forGrams: "Record air flow: it turns the delay into grams of oxygen.",
  orSize:
    "Record air flow, which turns the delay into grams of oxygen; until then say the engine's size, which bounds them closer.",
  asWell: "Record the air flow as well: without it a delay says nothing of grams.",
} as const;

export const compare = {
  likeCar: "Compare with a known-good recording of a like car at the same air flow.",
  likeCarOrLimit: "Compare with a known-good recording of a like car at the same air flow, or with the maker's limit.",
  orLimit: "Compare with a known-good recording at the same air flow, or with the maker's limit.",
} as const;

export type Asked = "both" | "front" | "trims" | "flow" | "compare";

const asked: ReadonlyMap<string, Asked> = new Map(
  Object.entries({
    both: Object.values(again),
    front: Object.values(frontAgain),
    trims: [recordTrims],
    flow: Object.values(recordFlow),
    compare: Object.values(compare),
  } satisfies Record<Asked, readonly string[]>).flatMap(([kind, steps]) =>
    steps.map((step): [string, Asked] => [step, kind as Asked]),
  ),
);

/** What a step of a finding asks to be recorded or compared; null where it asks for something else. */
export const askedBy = (step: string): Asked | null => asked.get(step) ?? null;
