// Edits of a channel's settings: what it is, how it is named, and corrections of how it was picked up.

import type { Bank, Role } from "../../capture/model/capture.ts";
import { formatExact, withUnit } from "../../signal/written/digits.ts";
import type { BenchState, ChannelSettings } from "../record/job.ts";
import type { ChannelFacts } from "./bench.ts";

/** As recorded. */
export const untouched: ChannelSettings = { gain: 1, offset: 0 };

/** The settings in force; value shown = recorded * gain + offset. */
export function settingsOf(bench: BenchState, channelId: string): ChannelSettings {
  return bench.channels[channelId] ?? untouched;
}

export function setChannel(bench: BenchState, channelId: string, change: Partial<ChannelSettings>): BenchState {
  const settings = { ...settingsOf(bench, channelId), ...change };
  return { ...bench, channels: { ...bench.channels, [channelId]: settings } };
}

/** Back to what the file says. */
export function resetChannel(bench: BenchState, channelId: string): BenchState {
  const { [channelId]: _, ...channels } = bench.channels;
  return { ...bench, channels };
}

export const setRole = (bench: BenchState, channelId: string, role: Role): BenchState =>
  setChannel(bench, channelId, { role });

export const setUnit = (bench: BenchState, channelId: string, unit: string): BenchState =>
  setChannel(bench, channelId, { unit });

/** Which of the car's two banks is judged. */
export const setBank = (bench: BenchState, bank: Bank): BenchState => ({ ...bench, bank });

/** The channel with the user's word in force. */
export function channelInForce(bench: BenchState, channel: ChannelFacts): ChannelFacts {
  const { role, bank, unit, label } = settingsOf(bench, channel.id);
  return {
    id: channel.id,
    name: label || channel.name,
    unit: unit ?? channel.unit,
    role: role ?? channel.role,
    bank: bank ?? channel.bank,
  };
}

/** Front and rear of the bank in force trade roles; one step for undo. Unchanged where one of them is missing. */
export function swapFrontAndRear(bench: BenchState, channels: readonly ChannelFacts[]): BenchState {
  const now = channels.map((c) => channelInForce(bench, c)).filter((c) => c.bank === bench.bank);
  const front = now.find((c) => c.role === "front-o2");
  const rear = now.find((c) => c.role === "rear-o2");
  if (!front || !rear) return bench;
  return setRole(setRole(bench, front.id, "rear-o2"), rear.id, "front-o2");
}

/** Ways in which a signal is commonly picked up other than it stands on the wire, in the technician's words. */
export const pickups = [
  { id: "10-to-1", label: "10:1 lead, values ten times too small", change: { gain: 10 } },
  { id: "swapped-leads", label: "Leads swapped, signal upside down", change: { gain: -1 } },
  { id: "in-millivolts", label: "Values are millivolts, show volts", change: { gain: 0.001 } },
] as const satisfies readonly { id: string; label: string; change: Partial<ChannelSettings> }[];

/** "shown = recorded × 10 − 0.5"; empty when the channel is shown as recorded. Every exhibit states it. */
export function correctionText(settings: ChannelSettings, unit: string): string {
  const { gain, offset } = settings;
  if (gain === 1 && offset === 0) return "";
  const by = gain === 1 ? "" : ` × ${formatExact(gain)}`;
  const plus = offset === 0 ? "" : ` ${offset < 0 ? "−" : "+"} ${withUnit(formatExact(Math.abs(offset)), unit)}`;
  return `shown = recorded${by}${plus}`.trimEnd();
}
