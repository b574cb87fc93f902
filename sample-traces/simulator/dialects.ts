// The dialects of the sample files: invented, none is any program's own.

import type { Dialect, DialectColumn } from "./delimited.ts";
import type { Quantity } from "./run.ts";

type Columns = Partial<Record<Quantity, DialectColumn>>;

const seconds = { name: "Time (s)", perSecond: 1, decimals: 3 };

const scopeColumns: Columns = {
  frontVoltage: { name: "Front O2 sensor (V)", decimals: 3 },
  rearVoltage: { name: "Rear O2 sensor (V)", decimals: 3 },
  throttle: { name: "Throttle (%)", decimals: 1 },
  engineSpeed: { name: "Engine speed (1/min)", decimals: 0 },
  airFlow: { name: "Air flow (g/s)", decimals: 1 },
  coolant: { name: "Coolant temperature (degC)", decimals: 0 },
};

const logColumns: Columns = {
  ...scopeColumns,
  airFlow: { name: "Air flow (g/s)", decimals: 2 },
  roadSpeed: { name: "Road speed (km/h)", decimals: 0 },
  shortTrim: { name: "Short fuel trim (%)", decimals: 1 },
  longTrim: { name: "Long fuel trim (%)", decimals: 1 },
  fuelStatus: { name: "Fuel status", decimals: 0 },
  engineLoad: { name: "Engine load (%)", decimals: 1 },
  manifoldPressure: { name: "Manifold pressure (kPa)", decimals: 0 },
};

const plainScope: Dialect = {
  delimiter: ",",
  decimalMark: ".",
  preamble: [],
  time: seconds,
  columns: scopeColumns,
  lineEnd: "\n",
};
const plainLog: Dialect = { ...plainScope, time: { ...seconds, decimals: 2 }, columns: logColumns };

/** Same columns under other names, in the same order. */
function renamed(columns: Columns, names: Partial<Record<Quantity, string>>): Columns {
  const pairs = Object.entries(columns) as [Quantity, DialectColumn][];
  return Object.fromEntries(
    pairs.map(([quantity, column]) => [quantity, { ...column, name: names[quantity] ?? column.name }]),
  );
}

const squareBrackets = {
  frontVoltage: "O2 upstream [V]",
  rearVoltage: "O2 downstream [V]",
  throttle: "Throttle [%]",
  engineSpeed: "Speed of engine [rpm]",
  airFlow: "Mass air flow [g/s]",
  roadSpeed: "Vehicle speed [km/h]",
  coolant: "Coolant [°C]",
  shortTrim: "STFT [%]",
  longTrim: "LTFT [%]",
  fuelStatus: "Fuel system status",
};

const sensorNumbers = {
  frontVoltage: "O2S B1S1",
  rearVoltage: "O2S B1S2",
  throttle: "Throttle position",
  engineSpeed: "Engine speed",
  airFlow: "Mass air flow",
  roadSpeed: "Vehicle speed",
  coolant: "Coolant temperature",
  shortTrim: "Short term trim B1",
  longTrim: "Long term trim B1",
  fuelStatus: "Fuel system B1",
};

const millivolt = (column: DialectColumn | undefined): DialectColumn => ({ ...column!, decimals: 0, scale: 1000 });
const byNumber = renamed(scopeColumns, sensorNumbers);

export const dialects = {
  plainScope,
  plainLog,
  decimalComma: {
    ...plainScope,
    delimiter: ";",
    decimalMark: ",",
    time: { ...seconds, name: "Time [s]" },
    columns: renamed(scopeColumns, squareBrackets),
    lineEnd: "\r\n",
  },
  decimalCommaLog: {
    ...plainLog,
    delimiter: ";",
    decimalMark: ",",
    time: { ...seconds, name: "Time [s]" },
    columns: renamed(logColumns, squareBrackets),
    lineEnd: "\r\n",
  },
  millivolts: {
    ...plainScope,
    time: { name: "Time", perSecond: 1000, decimals: 0 },
    columns: {
      ...byNumber,
      frontVoltage: millivolt(byNumber.frontVoltage),
      rearVoltage: millivolt(byNumber.rearVoltage),
    },
    units: ["ms", "mV", "mV", "%", "rpm", "g/s"],
  },
  clockLog: {
    ...plainLog,
    time: { name: "Clock", perSecond: 1, decimals: 3 },
    clock: 9 * 3600 + 41 * 60 + 7.25,
  },
  preamble: {
    ...plainScope,
    preamble: [
      "# Bench recording, demo job 7",
      "# Hatchback 1.6, complaint: efficiency code, hiss at idle",
      "# Rate: 1000 samples/s",
      "",
    ],
  },
  tabLog: { ...plainLog, delimiter: "\t" },
  tabbed: { ...plainScope, delimiter: "\t" },
  unitRowLog: {
    ...plainLog,
    columns: renamed(logColumns, sensorNumbers),
    time: { name: "Time", perSecond: 1, decimals: 2 },
    units: ["s", "V", "V", "1/min", "%", "g/s", "km/h", "°C", "%", "%", ""],
  },
} satisfies Record<string, Dialect>;
