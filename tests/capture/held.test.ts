import { describe, expect, test } from "vitest";
import { freshRows, rowsHeld } from "../../src/capture/meaning/held.ts";
import { timeAt } from "../../src/signal/series/series.ts";
import { open } from "./open.ts";

const rate = 100;
const seconds = 60;
const rows = (value: (t: number) => number): Float64Array =>
  Float64Array.from({ length: rate * seconds }, (_, i) => value(i / rate));
/** As a log with this resolution writes it, V. */
const stepped = (value: number, step = 0.005): number => Math.round(value / step) * step;
/** What was heard at the last refresh, `hertz` times a second. */
const refreshed =
  (hertz: number, value: (t: number) => number) =>
  (t: number): number =>
    stepped(value(Math.floor(t * hertz + 1e-6) / hertz));

/** Between 0.1 and 0.8 V, not quite evenly. */
const switching = (t: number): number => 0.45 + 0.35 * Math.sin(2 * Math.PI * 0.83 * t + 0.4 * Math.sin(0.7 * t));
/** One step of 5 mV every 0.2 s, up and down between 0.5 and 0.75 V. */
const creeping = (t: number): number => stepped(0.5 + Math.abs(((t * 0.025) % 0.5) - 0.25));
/** Calm near 0.7 V; each ten seconds it falls to air and comes back, with lags of 0.3 s. */
const calmWithFalls = (t: number): number => {
  const phase = t % 10;
  const calm = 0.7 + 0.006 * Math.sin(0.9 * t);
  if (phase < 3) return calm;
  if (phase < 6) return 0.05 + (calm - 0.05) * Math.exp(-(phase - 3) / 0.3);
  return calm - (calm - 0.05) * Math.exp(-(phase - 6) / 0.3);
};
const squareWave = (t: number): number => ((t * 2.5) % 1 < 0.5 ? 0.8 : 0.1);

describe("values that are repeated until the next one comes", () => {
  test("are known by their jumps: a switching sensor, refreshed at 5 Hz and written at 100 rows/s", () => {
    expect(rowsHeld(rows(refreshed(5, switching)), "front-o2")).toBe(20);
  });

  test("are known by stops amid movement where the sensor rests between its falls", () => {
    expect(rowsHeld(rows(refreshed(5, calmWithFalls)), "rear-o2")).toBe(20);
  });

  test("are known where the refresh does not fall on whole rows", () => {
    const held = rowsHeld(rows(refreshed(14.7, switching)), "front-o2");
    expect(held).toBeGreaterThanOrEqual(6);
    expect(held).toBeLessThanOrEqual(7);
  });

  test("leave one row for each value", () => {
    const values = rows(refreshed(5, switching));
    const fresh = [...freshRows(values, 20)];
    expect(fresh.slice(0, 3)).toEqual([0, 20, 40]);
    expect(fresh).toHaveLength(5 * seconds + 1);
  });
});

describe("values that repeat because the signal hardly moves", () => {
  test("a slow creep by single steps of 5 mV is sampled in every row", () => {
    expect(new Set(rows(creeping)).size).toBeGreaterThan(40);
    expect(rowsHeld(rows(creeping), "rear-o2")).toBeNull();
  });

  test("so is a creep whose steps of 1.22 mV were rounded to 1 mV, by one or two at a time", () => {
    const values = rows((t) => stepped(stepped(0.5 + Math.abs(((t * 0.006) % 0.5) - 0.25), 0.00122), 0.001));
    expect(rowsHeld(values, "rear-o2")).toBeNull();
  });

  test("so are a square wave, a flat line, and a sensor that rests and falls", () => {
    expect(rowsHeld(rows(squareWave), "front-o2")).toBeNull();
    expect(
      rowsHeld(
        rows(() => 0.45),
        "rear-o2",
      ),
    ).toBeNull();
    expect(
      rowsHeld(
        rows((t) => stepped(calmWithFalls(t))),
        "rear-o2",
      ),
    ).toBeNull();
  });
});

describe("a log of one hundred rows a second", () => {
  const text = (rear: (t: number) => number, front: (t: number) => number) => {
    const lines = Array.from({ length: rate * seconds }, (_, i) => {
      const t = i / rate;
      return `${t.toFixed(2)},${front(t).toFixed(3)},${rear(t).toFixed(3)}`;
    });
    return ["time (s),front o2 (V),rear o2 (V)", ...lines].join("\n");
  };
  const samplesOf = async (content: string) => {
    const { channels, remarks } = await open(content);
    return { counts: channels.map(({ series }) => series.samples.length), remarks, channels };
  };

  test("keeps every row of a creeping rear sensor, and says nothing of repeats", async () => {
    const { counts, remarks } = await samplesOf(text(creeping, (t) => stepped(switching(t))));
    expect(counts).toEqual([rate * seconds, rate * seconds]);
    expect(remarks.filter(({ text }) => text.includes("only repeated"))).toEqual([]);
  });

  test("takes a calm rear sensor that shows too little by itself for held where the front one is", async () => {
    const onceFallen = (t: number) => (t > 30 && t < 34 ? 0.05 : creeping(t));
    expect(rowsHeld(rows(refreshed(5, onceFallen)), "rear-o2")).toBeNull();
    const { counts } = await samplesOf(text(refreshed(5, onceFallen), refreshed(5, switching)));
    expect(counts[1]).toBeLessThanOrEqual(5 * seconds + 1);
    const beside = await samplesOf(text(refreshed(5, onceFallen), (t) => stepped(switching(t))));
    expect(beside.counts).toEqual([rate * seconds, rate * seconds]);
  });

  test("counts only what is new where both are refreshed five times a second", async () => {
    const { counts, remarks } = await samplesOf(text(refreshed(5, calmWithFalls), refreshed(5, switching)));
    expect(counts).toEqual([5 * seconds + 1, 5 * seconds + 1]);
    expect(remarks.some(({ text }) => text.includes("only repeated"))).toBe(true);
  });

  test("counts only what is new in a log of an hour, the last value included", async () => {
    const long = Float64Array.from({ length: 3600 * rate }, (_, i) => refreshed(5, switching)(i / rate));
    const lines = Array.from(long, (value, i) => `${(i / rate).toFixed(2)},${value.toFixed(3)}`);
    const { channels } = await samplesOf(`Time (s),Front O2 (V)\n${lines.join("\n")}\n`);
    expect(channels[0]!.series.samples.length).toBe(5 * 3600 + 1);
    expect(timeAt(channels[0]!.series.time, 5 * 3600)).toBeCloseTo(3599.99, 9);
  });
});
