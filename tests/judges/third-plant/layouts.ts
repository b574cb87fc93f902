// How logs and slow scopes are written down: delimited text in several layouts, names and units of our own choosing.

import type { Chance } from "./chance.ts";
import type { Track } from "./plant.ts";
import type { Recorded } from "./recorders.ts";

type Names = Readonly<Record<Track, string>>;

const plain: Names = {
  front: "Front O2",
  rear: "Rear O2",
  lambda: "Front lambda",
  speed: "Engine speed",
  throttle: "Throttle",
  road: "Vehicle speed",
  air: "Air flow",
  load: "Engine load",
  manifold: "Manifold pressure",
  coolant: "Coolant temperature",
  short: "Short term trim",
  long: "Long term trim",
  loop: "Fuel system status",
};

const numbered: Names = {
  ...plain,
  front: "O2 B1S1",
  rear: "O2 B1S2",
  lambda: "Lambda B1S1",
  speed: "RPM",
  air: "MAF",
  road: "VSS",
  manifold: "MAP",
  coolant: "ECT",
  short: "STFT B1",
  long: "LTFT B1",
};

const german: Names = {
  front: "Lambdasonde vor Kat",
  rear: "Lambdasonde nach Kat",
  lambda: "Lambda vor Kat",
  speed: "Motordrehzahl",
  throttle: "Drosselklappe",
  road: "Geschwindigkeit",
  air: "Luftmasse",
  load: "Motorlast",
  manifold: "Saugrohrdruck",
  coolant: "Kühlmitteltemperatur",
  short: "Gemischkorrektur Kurzzeit",
  long: "Gemischkorrektur Langzeit",
  loop: "Regelstatus",
};

const units: Names = {
  front: "V",
  rear: "V",
  lambda: "lambda",
  speed: "1/min",
  throttle: "%",
  road: "km/h",
  air: "g/s",
  load: "%",
  manifold: "kPa",
  coolant: "°C",
  short: "%",
  long: "%",
  loop: "",
};

const decimals: Readonly<Record<Track, number>> = {
  front: 3,
  rear: 3,
  lambda: 4,
  speed: 0,
  throttle: 1,
  road: 0,
  air: 2,
  load: 1,
  manifold: 0,
  coolant: 0,
  short: 1,
  long: 1,
  loop: 0,
};

interface Layout {
  readonly names: Names;
  readonly between: ";" | "," | "\t";
  readonly point: "." | ",";
  readonly stamp: "s" | "ms" | "clock";
  /** "(V)", "[V]", or a row of its own. */
  readonly units: "round" | "square" | "row";
  readonly inMillivolts: boolean;
}

const layouts: readonly Layout[] = [
  { names: plain, between: ",", point: ".", stamp: "s", units: "round", inMillivolts: false },
  { names: numbered, between: ",", point: ".", stamp: "ms", units: "square", inMillivolts: false },
  { names: german, between: ";", point: ",", stamp: "s", units: "square", inMillivolts: true },
  { names: numbered, between: "\t", point: ".", stamp: "clock", units: "row", inMillivolts: false },
  { names: plain, between: ";", point: ".", stamp: "clock", units: "round", inMillivolts: true },
];

export const drawLayout = (chance: Chance): Layout => chance.pick(layouts);

/** @param layout by `drawLayout`; @returns the file's text. */
export function asText({ columns, stamps }: Recorded, layout: Layout): string {
  const isVolts = (track: Track) => units[track] === "V";
  const unitOf = (track: Track) => (layout.inMillivolts && isVolts(track) ? "mV" : units[track]);
  const head = headOf(
    layout,
    columns.map(({ track }) => track),
    unitOf,
  );
  const lines = Array.from(stamps, (at, i) => {
    const cells = columns.map(({ track, samples }) =>
      layout.inMillivolts && isVolts(track)
        ? (1000 * samples[i]!).toFixed(0)
        : samples[i]!.toFixed(decimals[track]).replace(".", layout.point),
    );
    return [stampOf(at, layout), ...cells].join(layout.between);
  });
  return `${[...head, ...lines].join("\n")}\n`;
}

function headOf(layout: Layout, tracks: readonly Track[], unitOf: (track: Track) => string): string[] {
  const { names, between, units: place, stamp } = layout;
  const time = stamp === "clock" ? "" : stamp;
  const named: [string, string][] = [
    ["Time", time],
    ...tracks.map((track): [string, string] => [names[track], unitOf(track)]),
  ];
  if (place === "row") return [named.map(([name]) => name).join(between), named.map(([, unit]) => unit).join(between)];
  const marks = place === "round" ? ["(", ")"] : ["[", "]"];
  return [named.map(([name, unit]) => (unit ? `${name} ${marks[0]}${unit}${marks[1]}` : name)).join(between)];
}

function stampOf(at: number, { stamp, point }: Layout): string {
  if (stamp === "s") return at.toFixed(3).replace(".", point);
  if (stamp === "ms") return (1000 * at).toFixed(0);
  const [whole, rest] = [Math.floor(at), Math.floor(1000 * (at % 1))];
  const two = (value: number) => String(value).padStart(2, "0");
  return `14:${two(5 + Math.floor(whole / 60))}:${two(whole % 60)}.${String(rest).padStart(3, "0")}`;
}
