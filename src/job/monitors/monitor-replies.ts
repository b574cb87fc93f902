// Monitor results out of raw replies: service $06 on CAN (records of nine bytes), service $06 of older buses (one limit each), and
// service $05 (oxygen sensors, older buses).

import { hexLines, hexText } from "../replies/hex-lines.ts";
import { type Reply, repliesIn, type Unread } from "../replies/replies.ts";
import { hex, isSupportMap, monitorOf, oxygenTestName, testNameOf } from "./monitor-names.ts";
import { bankOfMonitor, inOrder, type MonitorResult, marginOf, onlyMakersData } from "./result.ts";
import { scaled, scalingOf } from "./scaling.ts";

export interface MonitorReplies {
  readonly results: readonly MonitorResult[];
  readonly unread: readonly Unread[];
}

/** Never throws. Also takes bare records of nine bytes, without the service byte before them. */
export function monitorsInReplies(text: string): MonitorReplies {
  const { replies, unread } = repliesIn(text, [0x45, 0x46]);
  const results: MonitorResult[] = [];
  const problems: Unread[] = [];
  for (const reply of replies) {
    const read = resultsOf(reply);
    if (typeof read === "string") problems.push({ line: reply.line, says: read });
    else results.push(...read);
  }
  const bare = bareRecords(text, unread);
  const left = unread.filter(({ line }) => !bare.lines.has(line));
  return { results: inOrder([...results, ...bare.results]), unread: [...left, ...problems] };
}

function resultsOf({ bytes, bus }: Reply): MonitorResult[] | string {
  const body = bytes.slice(1);
  if (bytes[0] === 0x45) return oxygenTest(body);
  if (isSupportMap(body[0] ?? -1) && body.length % 5 === 0) return [];
  if (bus !== "can" && body.length === 6) return [oneSided(body)];
  if (body.length % 9 === 0 && body.length > 0 && bus !== "older") return records(body);
  return `Not a whole result: ${hexText(bytes)}. On CAN a result takes nine bytes, on an older bus six.`;
}

/** Lines of nine bytes, or of some nines, that begin with a monitor we know. */
function bareRecords(text: string, unread: readonly Unread[]) {
  const wanted = new Set(unread.map(({ line }) => line));
  const found = hexLines(text).filter(
    ({ line, from, bytes }) =>
      wanted.has(line) && from === null && bytes.length % 9 === 0 && scalingOf(bytes[2]!) !== null,
  );
  return { results: found.flatMap(({ bytes }) => records(bytes)), lines: new Set(found.map(({ line }) => line)) };
}

function records(body: readonly number[]): MonitorResult[] {
  const results: MonitorResult[] = [];
  for (let at = 0; at + 9 <= body.length; at += 9) results.push(onCan(body.slice(at, at + 9)));
  return results;
}

/** OBDMID, TID, UASID, value, lowest, highest, high byte first; passed while lowest <= value <= highest (rule from memory). */
function onCan(bytes: readonly number[]): MonitorResult {
  const [id, test, unitId] = bytes as [number, number, number];
  const monitor = monitorOf(id);
  const raw = [word(bytes, 3), word(bytes, 5), word(bytes, 7)] as const;
  const [value, least, most] = raw.map((one) => scaled(unitId, one) ?? one) as [number, number, number];
  const scaling = scalingOf(unitId);
  const name = testNameOf(monitor, test);
  const isSigned = unitId >= 0x80;
  const low = raw[1] === (isSigned ? 0x8000 : 0) ? null : least;
  const high = raw[2] === (isSigned ? 0x7fff : 0xffff) ? null : most;
  const notRun = raw.every((one) => one === 0);
  return {
    monitor: monitor.name,
    concern: monitor.concern,
    bank: bankOfMonitor(id),
    test: name ?? `test $${hex(test)}: ${onlyMakersData}`,
    value,
    low,
    high,
    unit: scaling?.unit ?? "raw",
    outcome: notRun ? "not-run" : value >= least && value <= most ? "passed" : "failed",
    margin: notRun ? null : marginOf(value, low, high),
    bytes: hexText(bytes),
    note: scaling ? (scaling.source === "from memory" ? "scaling from memory" : "") : `unit $${hex(unitId)} unknown`,
  };
}

/**
 * TID, component, value, limit: bit 7 of the component says that the limit is the lowest allowed. From memory; meaning and
 * scaling are the maker's, so only the outcome and the relative margin are told.
 */
function oneSided(body: readonly number[]): MonitorResult {
  const [test, component] = body as [number, number];
  const [value, limit] = [word(body, 2), word(body, 4)];
  const isLowest = component >= 0x80;
  const [low, high] = isLowest ? [limit, null] : [null, limit];
  return {
    monitor: `Test $${hex(test)}, component $${hex(component & 0x7f)}`,
    concern: "other",
    bank: null,
    test: onlyMakersData,
    value,
    low,
    high,
    unit: "raw",
    outcome:
      value === 0 && limit === 0 ? "not-run" : (isLowest ? value >= limit : value <= limit) ? "passed" : "failed",
    margin: marginOf(value, low, high),
    bytes: hexText(body),
    note: "byte order from memory",
  };
}

/** Constants $01 … $04 in one byte; calculated tests in three: value, lowest, highest. Order from memory. */
function oxygenTest(body: readonly number[]): MonitorResult[] | string {
  const [test = 0, sensor = 0, ...values] = body;
  const place = sensorPlace(sensor);
  if (values.length !== 1 && values.length !== 3) return `Not a whole result: 45 ${hexText(body)}.`;
  if (!place) return `No single sensor is named: 45 ${hexText(body)}.`;
  const name = oxygenTestName(test);
  const [scale, unit] = name ? oxygenScale(test) : ([1, "raw"] as const);
  const [value, least, most] = values.map((one) => one * scale) as [number, number?, number?];
  const low = least === undefined || values[1] === 0 ? null : least;
  const high = most === undefined || values[2] === 0xff ? null : most;
  const isConstant = least === undefined || most === undefined;
  const notRun = !isConstant && values.every((one) => one === 0);
  const passed = isConstant || (value >= least && value <= most);
  return [
    {
      monitor: `Oxygen sensor, bank ${place.bank} sensor ${place.sensor}`,
      concern: "oxygen-sensor",
      bank: place.bank,
      test: name ?? `test $${hex(test)}: ${onlyMakersData}`,
      value,
      low,
      high,
      unit,
      outcome: isConstant ? "constant" : notRun ? "not-run" : passed ? "passed" : "failed",
      margin: isConstant || notRun ? null : marginOf(value, low, high),
      bytes: `45 ${hexText(body)}`,
      note: "",
    },
  ];
}

/** SAE J1979 / ISO 15031-5, after a general packet library: 5 mV, 4 ms and 40 ms a bit. */
function oxygenScale(test: number): readonly [scale: number, unit: string] {
  if (test === 5 || test === 6) return [0.004, "s"];
  return test === 9 || test === 10 ? [0.04, "s"] : [0.005, "V"];
}

/** One bit each: 01 is bank 1 sensor 1, 10 is bank 2 sensor 1. From memory. */
function sensorPlace(bits: number): { bank: number; sensor: number } | null {
  const at = [1, 2, 4, 8, 16, 32, 64, 128].indexOf(bits);
  return at < 0 ? null : { bank: Math.floor(at / 4) + 1, sensor: (at % 4) + 1 };
}

const word = (bytes: readonly number[], at: number): number => (bytes[at]! << 8) | bytes[at + 1]!;
