// Items of services $01 and $02 that matter to this job, with their scalings (SAE J1979 / ISO 15031-5), after a general packet
// library that codes the tables; rows marked so are from memory. All values in the units of the reading type.

export interface Parameter {
  readonly pid: number;
  readonly id: ParameterId;
  readonly name: string;
  readonly unit: string;
  /** Data bytes of a reply. */
  readonly bytes: number;
  readonly source: "read in another's table" | "from memory";
  read(data: readonly number[]): number;
}

export type ParameterId =
  | "load"
  | "coolant"
  | "shortTrim1"
  | "longTrim1"
  | "shortTrim2"
  | "longTrim2"
  | "manifoldPressure"
  | "engineSpeed"
  | "roadSpeed"
  | "timing"
  | "intakeTemperature"
  | "airFlow"
  | "throttle"
  | "runTime"
  | "distanceWithLamp"
  | "purge"
  | "warmUps"
  | "distanceSinceClear"
  | "barometer"
  | "catalystTemperature1"
  | "catalystTemperature2"
  | "moduleVoltage"
  | "absoluteLoad"
  | "wantedLambda"
  | "timeWithLamp"
  | "timeSinceClear"
  | "fuelStatus1"
  | "fuelStatus2";

const byte = ([a = 0]: readonly number[]): number => a;
const word = ([a = 0, b = 0]: readonly number[]): number => 256 * a + b;
const percent = (data: readonly number[]): number => (byte(data) * 100) / 255;
const trim = (data: readonly number[]): number => (byte(data) * 100) / 128 - 100;
const degrees = (data: readonly number[]): number => byte(data) - 40;
const catalystDegrees = (data: readonly number[]): number => word(data) / 10 - 40;
const lambda = (data: readonly number[]): number => (word(data) * 2) / 65536;

type Row = readonly [
  pid: number,
  id: ParameterId,
  name: string,
  unit: string,
  bytes: number,
  read: Parameter["read"],
  source?: "from memory",
];

const rows: readonly Row[] = [
  [0x04, "load", "Engine load", "%", 1, percent],
  [0x05, "coolant", "Coolant temperature", "degC", 1, degrees],
  [0x06, "shortTrim1", "Short fuel trim, bank 1", "%", 1, trim],
  [0x07, "longTrim1", "Long fuel trim, bank 1", "%", 1, trim],
  [0x08, "shortTrim2", "Short fuel trim, bank 2", "%", 1, trim],
  [0x09, "longTrim2", "Long fuel trim, bank 2", "%", 1, trim],
  [0x0b, "manifoldPressure", "Manifold pressure", "kPa", 1, byte],
  [0x0c, "engineSpeed", "Engine speed", "1/min", 2, (data) => word(data) / 4],
  [0x0d, "roadSpeed", "Road speed", "km/h", 1, byte],
  [0x0e, "timing", "Timing advance", "deg", 1, (data) => byte(data) / 2 - 64],
  [0x0f, "intakeTemperature", "Intake air temperature", "degC", 1, degrees],
  [0x10, "airFlow", "Air flow", "g/s", 2, (data) => word(data) / 100],
  [0x11, "throttle", "Throttle", "%", 1, percent],
  [0x1f, "runTime", "Time since start", "s", 2, word, "from memory"],
  [0x21, "distanceWithLamp", "Distance with the lamp on", "km", 2, word],
  [0x2e, "purge", "Purge wanted", "%", 1, percent],
  [0x30, "warmUps", "Warm-ups since codes were cleared", "1", 1, byte],
  [0x31, "distanceSinceClear", "Distance since codes were cleared", "km", 2, word],
  [0x33, "barometer", "Air pressure outside", "kPa", 1, byte],
  [0x3c, "catalystTemperature1", "Catalyst temperature, bank 1", "degC", 2, catalystDegrees],
  [0x3d, "catalystTemperature2", "Catalyst temperature, bank 2", "degC", 2, catalystDegrees],
  [0x42, "moduleVoltage", "Supply voltage", "V", 2, (data) => word(data) / 1000],
  [0x43, "absoluteLoad", "Absolute load", "%", 2, (data) => (word(data) * 100) / 255],
  [0x44, "wantedLambda", "Lambda wanted", "1", 2, lambda],
  [0x4d, "timeWithLamp", "Time with the lamp on", "s", 2, (data) => 60 * word(data)],
  [0x4e, "timeSinceClear", "Time since codes were cleared", "s", 2, (data) => 60 * word(data)],
];

const parameters: readonly Parameter[] = rows.map(([pid, id, name, unit, bytes, read, source]) => ({
  ...{ pid, id, name, unit, bytes, read },
  source: source ?? "read in another's table",
}));

/** Fuel system status, PID $03: one byte for each of two systems. 01 from memory. */
export const fuelStatuses: Readonly<Record<number, string>> = {
  0: "off",
  1: "open loop, not warm yet",
  2: "closed loop",
  4: "open loop, load or overrun",
  8: "open loop, fault",
  16: "closed loop, fault in a sensor",
};

const statuses: readonly Parameter[] = [1, 2].map((system) => ({
  pid: 0x03,
  id: `fuelStatus${system}` as ParameterId,
  name: `Fuel system ${system}`,
  unit: "status",
  bytes: 2,
  source: "read in another's table",
  read: (data) => data[system - 1] ?? 0,
}));

export const parameterOf = (id: ParameterId): Parameter => [...parameters, ...statuses].find((one) => one.id === id)!;

/** The least and the greatest value that the bytes of a reply can hold. */
export function reachOf(id: ParameterId): [least: number, greatest: number] {
  const { bytes, read } = parameterOf(id);
  const filled = (byte: number) => read(Array<number>(bytes).fill(byte));
  return [filled(0x00), filled(0xff)];
}

export const parametersOfPid = (pid: number): readonly Parameter[] =>
  pid === 0x03 ? statuses : parameters.filter((one) => one.pid === pid);

/** All items a freeze frame or a status may hold, in the order of the standard's table. */
export const parameterIds: readonly ParameterId[] = [...statuses, ...parameters].map(({ id }) => id);
