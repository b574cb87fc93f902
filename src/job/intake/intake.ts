// What is known before anything is recorded. Free text throughout: nothing is refused.

export const lampStates = ["unknown", "on", "flashing", "off"] as const;

export interface Intake {
  /** In the customer's own words. */
  readonly complaint: string;
  readonly lamp: (typeof lampStates)[number];
  readonly since: string;
  readonly recentWork: string;
  /** Sensors or catalysts fitted before, and whose. */
  readonly fittedParts: string;
  readonly fuelAndOil: string;
  /** What the customer agreed to, and up to which amount. */
  readonly authority: string;
  readonly cap: string;
  readonly engineSize: string;
  readonly banks: "" | "1" | "2";
  readonly technician: string;
  /** Local date, "2026-05-04"; "" where none was chosen. */
  readonly date: string;
}

export const emptyIntake: Intake = {
  complaint: "",
  lamp: "unknown",
  since: "",
  recentWork: "",
  fittedParts: "",
  fuelAndOil: "",
  authority: "",
  cap: "",
  engineSize: "",
  banks: "",
  technician: "",
  date: "",
};

export const lampWords: Readonly<Record<Intake["lamp"], string>> = {
  unknown: "not said",
  on: "on",
  flashing: "flashing",
  off: "off",
};

/** A flashing lamp means misfire that harms the catalyst while it is driven (common practice). */
export const lampWarning = (lamp: Intake["lamp"]): string | null =>
  lamp === "flashing"
    ? "A flashing lamp means misfire that can melt the catalyst. Do not drive it further; cure the misfire first."
    : null;
