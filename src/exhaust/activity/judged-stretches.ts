// Each stretch with what was measured in it, and whether rear against front may be judged there.

import { type Loop, loopIn } from "../running/loop.ts";
import type { PlainStretch } from "../running/stretches.ts";
import { trimsOf } from "../running/trims.ts";
import { frontHealthOf } from "../sensors/front-health.ts";
import type { Awakening, Span, Stretch, UnfitCode, Warmth } from "../terms/analysis.ts";
import type { BankChannels } from "../terms/channels.ts";
import { cyclesIn, pieceOf } from "../terms/edges.ts";
import type { Limits } from "../terms/limits.ts";
import { anew, type Recall } from "../terms/remembered.ts";
import { quantity, saidOf } from "../terms/words.ts";
import { measuredOf, measureSides, type SidesMeasured } from "./pair.ts";
import { holesBeside, holesIn, whyApart } from "./together.ts";

export interface StretchScene {
  /** Front and rear only where they switch: see `switchingOnly`. */
  readonly channels: BankChannels;
  readonly front: Awakening | null;
  readonly rear: Awakening | null;
  readonly warmth: Warmth;
  readonly limits: Limits;
  readonly recall?: Recall;
}

/**
 * What was measured in a stretch, and why it may or may not be judged.
 *
 * @param plain    a span of the recording, s, and what kind of running it is.
 * @param onShare  told how much is done, 0 … 1.
 */
export function judgeStretch(plain: PlainStretch, scene: StretchScene, onShare?: OnShare): Stretch {
  const { recall = anew, limits, front, rear, warmth } = scene;
  const { from, to, kind, origin, readAs, speedUnknown } = plain;
  const inputs = [kind, origin, readAs, speedUnknown, front, rear, warmth];
  return recall(`stretch ${from} ${to}`, inputs, limits, (used) => judged(plain, { ...scene, limits: used }, onShare));
}

/** Both sensors in a stretch. A kind that is put right changes nothing of it. */
export function sidesIn({ channels, limits, recall = anew }: SidesScene, { from, to }: Span, onShare?: OnShare) {
  return recall(`sides ${from} ${to}`, [], limits, (used) =>
    measuredOf(measureSides(channels, { span: { from, to }, limits: used, leastCycles: used.frontCycles, onShare })),
  );
}

type OnShare = (share: number) => void;
export type SidesScene = Pick<StretchScene, "channels" | "limits" | "recall">;

function judged(plain: PlainStretch, scene: StretchScene, onShare?: OnShare): Stretch {
  const { kind, from, to, origin, readAs } = plain;
  const span = { from, to };
  const { limits } = scene;
  const sides = sidesIn(scene, span, onShare);
  const loop = loopIn(scene.channels, span, sides.front?.crossings ?? null);
  const refusal = whyNotJudged(plain, scene, sides, loop);
  return {
    kind,
    from,
    to,
    origin,
    readAs,
    activity: sides.activity,
    fit: refusal === null,
    ...(refusal ? { unfit: refusal.code } : {}),
    because: refusal?.says ?? whatItIs(plain, loop),
    front: sides.front ? frontHealthOf(sides.front, limits) : null,
    trims: trimsOf(scene.channels, span, loop === "open" ? "known" : loop),
  };
}

interface Refusal {
  readonly code: UnfitCode;
  readonly says: string;
}

const no = (code: UnfitCode, says: string): Refusal => ({ code, says });

/** The first reason that stands against judging; null when there is none. */
function whyNotJudged(plain: PlainStretch, scene: StretchScene, sides: SidesMeasured, loop: Loop): Refusal | null {
  const { limits } = scene;
  const unfit = unfitKind(plain, scene, loop);
  if (unfit) return unfit;
  if (!scene.rear) return no("no-sensor", "No channel stands for the rear sensor.");
  if (!scene.front) return no("no-sensor", "No channel stands for the front sensor.");
  if (!sides.front || !sides.rear) return notComparable(scene);
  const asleep = sleeper(plain, scene);
  if (asleep) return asleep;
  if (loop === "open") return no("open-loop", "The fuel loop was open here.");
  if (sides.front.trouble) return no("too-slow", `Sampled too slowly. ${sides.front.trouble}`);
  if (sides.rear.trouble) return no("too-slow", `Sampled too slowly. ${sides.rear.trouble}`);
  const pieces = [pieceOf(scene.channels.front, plain), pieceOf(scene.channels.rear, plain)] as const;
  const apart = pieces[0] && pieces[1] ? whyApart(pieces[0].series, pieces[1].series) : null;
  if (apart) return no("no-sensor", apart);
  const cycles = cyclesIn(sides.front.crossings);
  const holes = pieces[0] ? holesIn(pieces[0].series) + holesAround(scene.channels, plain) : "";
  if (cycles < limits.frontCycles)
    return no("few-cycles", `Only ${cycles} front cycles here; ${limits.frontCycles} are needed.${holes}`);
  return null;
}

function unfitKind(
  { kind, speedUnknown, from, to }: PlainStretch,
  { warmth, channels }: StretchScene,
  loop: Loop,
): Refusal | null {
  if (kind === "not-running") return no("not-running", "The engine was not running.");
  if (kind === "cold") return no("cold", `Not hot yet. ${warmth.says}`);
  if (kind === "overrun") return no("fuel-cut", "Fuel is cut here: see the lift-off.");
  if (kind === "load") return no("hard-pull", "A hard pull runs rich on purpose.");
  if (kind === "unsteady" && loop === "open") return no("open-loop", "The fuel loop was open here.");
  if (kind === "unsteady" && !speedUnknown)
    return no("moving", whatMoved(channels) + holesAround(channels, { from, to }));
  return null;
}

const holesAround = ({ front }: StretchScene["channels"], span: Span): string =>
  front ? holesBeside(front.series, span) : "";

/** Names only what was recorded. */
function whatMoved({ engineSpeed, throttle, roadSpeed }: StretchScene["channels"]): string {
  const named = [engineSpeed && "engine speed", throttle && "throttle", roadSpeed && "road speed"].filter(
    (one) => one !== null,
  );
  if (named.length === 0) return "Too short a part to be judged, and nothing recorded says how the engine ran.";
  const list = named.length < 2 ? named[0]! : `${named.slice(0, -1).join(", ")} or ${named.at(-1)}`;
  return `${list.charAt(0).toUpperCase()}${list.slice(1)} was moving, or the part is too short to tell.`;
}

function notComparable({ front, rear }: StretchScene): Refusal {
  if (front?.kind === "wide-band")
    return no(
      "other-sensor",
      "A wide-band front does not switch: only the rear's swing and the lift-off can be judged.",
    );
  const isOdd = (one: Awakening | null) => one !== null && one.kind !== "narrow-band" && one.kind !== "unknown";
  if (isOdd(front)) return no("other-sensor", saidOf("front", front!.says));
  if (isOdd(rear)) return no("other-sensor", saidOf("rear", rear!.says));
  return no("no-sensor", "One of the two sensors has no samples here.");
}

/** The stretch must begin after both sensors woke. */
function sleeper({ from, to }: PlainStretch, { front, rear }: StretchScene): Refusal | null {
  for (const [name, sensor] of [
    ["front", front],
    ["rear", rear],
  ] as const) {
    if (!sensor || (sensor.awakeFrom !== null && sensor.awakeFrom <= from + 0.25 * (to - from))) continue;
    if (name === "rear" && sensor.awakeFrom === null && !isAtRest(sensor)) continue;
    const said = saidOf(name, sensor.says);
    return no("asleep", sensor.awakeFrom === null ? said : `The ${name} sensor was not awake yet. ${said}`);
  }
  return null;
}

/** A rear that never swung but stands away from its bias may be a calm one: the findings weigh that. */
const isAtRest = (sensor: Awakening): boolean => sensor.bias.value !== null && sensor.leftBias.value === null;

function whatItIs({ speedUnknown, from, to, origin }: PlainStretch, loop: Loop): string {
  const closed = {
    known: "closed loop",
    likely: "closed loop likely, as the front switches regularly",
    unknown: "closed loop not shown",
    open: "",
  }[loop];
  const kind = speedUnknown
    ? "nothing recorded says at what engine speed; "
    : origin === "user"
      ? "kind set by hand; "
      : "";
  return `${quantity(Math.round((to - from) * 10) / 10, "s")}, ${kind}${closed}.`;
}
