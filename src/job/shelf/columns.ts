// How the columns of a shelf trace are corrected, as its zip says it: by place, since names may repeat.

import { correctionIn, labelsIn } from "../../capture/meaning/corrections.ts";
import { type Bank, type Channel, type Role, roles } from "../../capture/model/capture.ts";
import type { ChannelCorrection, Corrections } from "../../capture/model/take.ts";
import { isRecord } from "../record/checks.ts";
import { most } from "../record/sizes.ts";

/** What shelf.json says of the array's columns. */
export interface Columns {
  /** As recorded, by column name. */
  readonly roles: Readonly<Record<string, Role>>;
  /** One for each column after the time; shown and measured = recorded * gain + offset. */
  readonly corrections: readonly Correction[];
}

interface Correction extends Required<Omit<ChannelCorrection, "unit">> {
  /** Only where a person stated another than the array's own. */
  readonly unit?: string;
}

type Recorded = Pick<Channel, "id" | "name" | "role" | "bank" | "unit" | "fileUnit" | "assumedUnit">;

/** @param channels  as recorded, in the order of the columns. */
export function columnsOf(channels: readonly Recorded[], corrections: Corrections = {}): Columns {
  return {
    roles: Object.fromEntries(channels.map(({ name, role }) => [name, role])),
    corrections: channels.map((channel) => {
      const { role, bank, unit } = labelsIn(corrections, channel);
      const { gain, offset } = correctionIn(corrections, channel);
      return { role, bank, ...(unit === channel.unit ? {} : { unit }), gain, offset };
    }),
  };
}

/** From anywhere: what is no correction is as recorded. Channels of an array are named by their columns, the time's is the first. */
export function readColumns(said: unknown): Corrections {
  if (!Array.isArray(said)) return {};
  const read = said.slice(0, most.channels).map((one, i) => [`c${i + 2}`, readColumn(one)] as const);
  return Object.fromEntries(read.flatMap(([id, one]) => (one ? [[id, one]] : [])));
}

function readColumn(said: unknown): ChannelCorrection | null {
  if (!isRecord(said)) return null;
  const { role, bank, unit, gain, offset } = said;
  return {
    ...((roles as readonly unknown[]).includes(role) ? { role: role as Role } : {}),
    ...(bank === 1 || bank === 2 ? { bank: bank as Bank } : {}),
    ...(typeof unit === "string" && unit.length <= longestUnit ? { unit } : {}),
    gain: Number.isFinite(gain) && gain !== 0 ? (gain as number) : 1,
    offset: Number.isFinite(offset) ? (offset as number) : 0,
  };
}

const longestUnit = 20;

/** Without what says the same as the recording itself, so that a sheet names only what a hand changed. */
export function correctionsThatTell(channels: readonly Recorded[], corrections: Corrections): Corrections {
  const told = channels.flatMap(({ id, role, bank, unit }) => {
    const said = corrections[id];
    if (!said) return [];
    const one: ChannelCorrection = {
      ...(said.role === undefined || said.role === role ? {} : { role: said.role }),
      ...(said.bank === undefined || said.bank === bank ? {} : { bank: said.bank }),
      ...(said.unit === undefined || said.unit === unit ? {} : { unit: said.unit }),
      gain: said.gain,
      offset: said.offset,
    };
    return Object.keys(one).length > 2 || one.gain !== 1 || one.offset !== 0 ? [[id, one] as const] : [];
  });
  return Object.fromEntries(told);
}
