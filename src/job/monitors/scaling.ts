// The unit-and-scaling IDs of service $06 on CAN: value = raw * scale + offset; $01 … $7F unsigned, $80 … $FE two's complement.
// Rows after a general packet library that codes the J1979 tables (read); those marked are from memory. The exact form behind
// the rounded 0.0000305 is not known, so such a value errs by up to 0.06 %.

/** Units in SI or as the table has them. */
export interface Scaling {
  readonly scale: number;
  readonly offset: number;
  readonly unit: string;
  readonly source: "read in another's table" | "from memory";
}

type Row = readonly [scale: number, unit: string, offset?: number];

const read: Readonly<Record<number, Row>> = {
  1: [1, "raw"],
  2: [0.1, "raw"],
  3: [0.01, "raw"],
  4: [0.001, "raw"],
  5: [0.0000305, "raw"],
  6: [0.000305, "raw"],
  7: [0.25, "1/min"],
  8: [0.01, "km/h"],
  9: [1, "km/h"],
  10: [0.000122, "V"],
  11: [0.001, "V"],
  12: [0.01, "V"],
  13: [0.00390625, "mA"],
  14: [1, "mA"],
  15: [10, "mA"],
  16: [0.001, "s"],
  17: [0.1, "s"],
  18: [1, "s"],
  19: [0.001, "ohm"],
  20: [1, "ohm"],
  21: [1000, "ohm"],
  22: [0.1, "degC", -40],
  23: [0.01, "kPa"],
  24: [0.0117, "kPa"],
  25: [0.079, "kPa"],
  26: [1, "kPa"],
  27: [10, "kPa"],
  28: [0.01, "deg"],
  29: [0.5, "deg"],
  30: [0.0000305, "lambda"],
  31: [0.05, "air/fuel"],
  32: [0.00390625, "ratio"],
  33: [0.001, "Hz"],
  34: [1, "Hz"],
  35: [1000, "Hz"],
  36: [1, "counts"],
  37: [1, "km"],
  38: [0.1, "V/s"],
  39: [0.01, "g/s"],
  40: [1, "g/s"],
  41: [0.25, "Pa/s"],
  42: [0.001, "kg/h"],
  43: [1, "switches"],
  44: [0.01, "g/cylinder"],
  45: [0.01, "mg/stroke"],
  46: [1, "yes or no"],
  47: [0.01, "%"],
  48: [0.001526, "%"],
  49: [0.001, "L"],
  50: [0.0000305 * 25.4, "mm"],
  51: [0.00024414, "lambda"],
  52: [60, "s"],
  53: [0.01, "s"],
  54: [0.01, "g"],
  55: [0.1, "g"],
  56: [1, "g"],
  57: [0.01, "%", -327.68],
  129: [1, "raw"],
  130: [0.1, "raw"],
  131: [0.01, "raw"],
  132: [0.001, "raw"],
  133: [0.0000305, "raw"],
  134: [0.000305, "raw"],
  138: [0.000122, "V"],
  139: [0.001, "V"],
  140: [0.01, "V"],
  141: [0.00390625, "mA"],
  142: [1, "mA"],
  144: [0.001, "s"],
  150: [0.1, "degC"],
  156: [0.01, "deg"],
  157: [0.5, "deg"],
  168: [1, "g/s"],
  169: [0.25, "Pa/s"],
  175: [0.01, "%"],
  176: [0.003052, "%"],
  177: [0.002, "V/s"],
  253: [0.001, "kPa"],
  254: [0.25, "Pa"],
};

const remembered: Readonly<Record<number, Row>> = {
  58: [0.001, "g"],
  59: [0.0001, "g"],
  60: [0.0000001, "s"],
  61: [0.01, "mA"],
  62: [0.000061035, "mm²"],
  63: [0.01, "L"],
  64: [1, "ppm"],
  65: [0.00001, "mA"],
  153: [0.1, "kPa"],
  173: [0.01, "mg/stroke"],
  174: [0.1, "mg/stroke"],
  252: [0.01, "kPa"],
};

/** Null for an ID that is not in the table: its numbers stay raw, and nothing is guessed. */
export function scalingOf(id: number): Scaling | null {
  const [row, source] = read[id]
    ? ([read[id], "read in another's table"] as const)
    : ([remembered[id], "from memory"] as const);
  return row ? { scale: row[0], unit: row[1], offset: row[2] ?? 0, source } : null;
}

/** @param raw  0 … 65535, as it was sent. */
export function scaled(id: number, raw: number): number | null {
  const scaling = scalingOf(id);
  if (!scaling) return null;
  const value = id >= 0x80 && raw >= 0x8000 ? raw - 0x10000 : raw;
  return value * scaling.scale + scaling.offset;
}
