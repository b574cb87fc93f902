// Which role and bank each column has: what the user said, else what its name says.

import type { Bank } from "./capture.ts";
import type { ReadChoices } from "./reader.ts";
import { hasValue, type Recorded } from "./recorded.ts";
import type { RemarkBook } from "./remarks.ts";
import { type Part, partOf } from "./roles.ts";

export interface Chosen extends Part {
  readonly bank: Bank;
  readonly isSaid: boolean;
}

/** Roles of all columns: what the user said, else what the name says; the first of a kind has it, the others are "other". */
export function partsOf(columns: readonly Recorded[], choices: ReadChoices, remarks: RemarkBook): Chosen[] {
  const taken = new Set<string>();
  const chosen: (Chosen | null)[] = columns.map((column) => {
    const role = lookUp(choices.roles, column);
    if (role === undefined) return null;
    const bank = partOf(column.name, "").bank ?? choices.bank ?? 1;
    taken.add(`${role} ${bank}`);
    return { role, bank, isSaid: true };
  });
  return columns.map((column, i) => chosen[i] ?? guessed(column, choices, taken, remarks));
}

function guessed(column: Recorded, choices: ReadChoices, taken: Set<string>, remarks: RemarkBook): Chosen {
  const said = partOf(column.name, lookUp(choices.units, column) ?? column.fileUnit);
  const bank = said.bank ?? choices.bank ?? 1;
  const role = hasValue(column.values) && !column.isSwitch ? said.role : "other";
  if (role === "other") return { role, bank, isSaid: false };
  if (taken.has(`${role} ${bank}`)) {
    remarks.tally("more channels for a role that an earlier one has; left without a role", undefined, 1, column.name);
    return { role: "other", bank, isSaid: false };
  }
  taken.add(`${role} ${bank}`);
  return { role, bank, isSaid: false };
}

/** What was said of a column under its name or its header, letter case aside. */
export function lookUp<T>(
  said: Readonly<Record<string, T>> | undefined,
  column: { readonly name: string; readonly header: string },
): T | undefined {
  const names = [column.name, column.header].map(plain);
  return said && Object.entries(said).find(([name]) => names.includes(plain(name)))?.[1];
}

const plain = (name: string): string => name.replace(/\s+/g, " ").trim().toLowerCase();
