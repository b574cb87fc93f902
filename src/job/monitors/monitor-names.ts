// Names of on-board monitors (OBDMID) and of the tests that the standard fixes. Monitors after a general packet library that codes
// the J1979 tables (read); $31 and the misfire tests $0B and $0C from memory.

export interface Monitor {
  readonly id: number;
  readonly name: string;
  readonly concern: "catalyst" | "oxygen-sensor" | "heater" | "misfire" | "other";
}

interface Run {
  readonly from: number;
  readonly to: number;
  readonly concern: Monitor["concern"];
  name(id: number): string;
}

const banked = (title: string, from: number) => (id: number) => `${title}, bank ${id - from + 1}`;
const sensor = (title: string, from: number) => (id: number) =>
  `${title}, bank ${Math.floor((id - from) / 4) + 1} sensor ${((id - from) % 4) + 1}`;

const runs: readonly Run[] = [
  { from: 0x01, to: 0x10, concern: "oxygen-sensor", name: sensor("Oxygen sensor", 0x01) },
  { from: 0x21, to: 0x24, concern: "catalyst", name: banked("Catalyst", 0x21) },
  { from: 0x31, to: 0x34, concern: "other", name: banked("Exhaust gas recirculation", 0x31) },
  { from: 0x35, to: 0x38, concern: "other", name: banked("Valve timing", 0x35) },
  { from: 0x39, to: 0x3c, concern: "other", name: () => "Fuel vapour leak" },
  { from: 0x3d, to: 0x3d, concern: "other", name: () => "Fuel vapour purge flow" },
  { from: 0x41, to: 0x50, concern: "heater", name: sensor("Oxygen sensor heater", 0x41) },
  { from: 0x61, to: 0x64, concern: "catalyst", name: banked("Heated catalyst", 0x61) },
  { from: 0x71, to: 0x74, concern: "other", name: (id) => `Secondary air ${id - 0x70}` },
  { from: 0x81, to: 0x84, concern: "other", name: banked("Fuel system", 0x81) },
  { from: 0x85, to: 0x86, concern: "other", name: banked("Boost control", 0x85) },
  { from: 0x90, to: 0x91, concern: "other", name: banked("NOx adsorber", 0x90) },
  { from: 0x98, to: 0x99, concern: "other", name: banked("NOx catalyst", 0x98) },
  { from: 0xa1, to: 0xa1, concern: "misfire", name: () => "Misfire, all cylinders" },
  { from: 0xa2, to: 0xad, concern: "misfire", name: (id) => `Misfire, cylinder ${id - 0xa1}` },
  { from: 0xb0, to: 0xb1, concern: "other", name: banked("Particulate filter", 0xb0) },
];

export function monitorOf(id: number): Monitor {
  const run = runs.find(({ from, to }) => id >= from && id <= to);
  return { id, name: run?.name(id) ?? `Monitor $${hex(id)}`, concern: run?.concern ?? "other" };
}

/** $00, $20, … hold no results: they are maps of which monitors the car has. */
export const isSupportMap = (id: number): boolean => [0x00, 0x20, 0x40, 0x60, 0x80, 0xa0].includes(id);

const oxygenTests: Readonly<Record<number, string>> = {
  1: "rich-to-lean threshold",
  2: "lean-to-rich threshold",
  3: "low level of the switch time",
  4: "high level of the switch time",
  5: "rich-to-lean switch time",
  6: "lean-to-rich switch time",
  7: "lowest voltage",
  8: "highest voltage",
  9: "time between transitions",
  10: "period",
};
const misfireTests: Readonly<Record<number, string>> = {
  11: "misfires, average of the last ten drives",
  12: "misfires, last or present drive",
};

/** Null for a test that the maker defines: only the maker's data tells what it is. */
export function testNameOf(monitor: Monitor, test: number): string | null {
  if (monitor.concern === "misfire") return misfireTests[test] ?? null;
  return monitor.concern === "oxygen-sensor" ? (oxygenTests[test] ?? null) : null;
}

export const oxygenTestName = (test: number): string | null => oxygenTests[test] ?? null;

export const hex = (byte: number): string => byte.toString(16).toUpperCase().padStart(2, "0");
