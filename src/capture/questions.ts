// What only the user can know of a file, with the likely answers.

import { formatValue } from "../signal/written/reading-text.ts";
import { inWords } from "../signal/written/words.ts";
import { rivalsIn } from "./meaning/chosen-roles.ts";
import { likelySensors, severalOf } from "./meaning/likely-sensors.ts";
import type { Capture, Role } from "./model/capture.ts";
import type { ReadChoices } from "./model/reader.ts";
import type { TextPlan } from "./text/plan.ts";

export interface Question {
  readonly about: "delimiter" | "time" | "timeUnit" | "dates" | "disorder" | "roles" | "member" | "layout";
  readonly text: string;
  /** The likely ones; about roles none means that nothing in the file moves like a sensor: no reason to ask by itself. */
  readonly answers: readonly Answer[];
}

export interface Answer {
  readonly text: string;
  /** To be laid over the choices made so far. */
  readonly choices: ReadChoices;
}

export const noTimeQuestion: Question = {
  about: "time",
  text: "There is no time in this file. How many samples a second are there?",
  answers: [],
};

export const layoutQuestion: Question = { about: "layout", text: "How are the numbers laid out?", answers: [] };

/** Of a WAV, whose samples are parts of what the recorder took for its largest voltage. */
export const scaleQuestion: Question = {
  about: "layout",
  text: "The samples are parts of the recorder's full scale. How many volts is that?",
  answers: [
    ...[1, 2, 5, 10, 20].map((volts) => ({
      text: formatValue(volts, "V"),
      choices: { layout: `times ${volts}, unit V` },
    })),
    { text: "Not known: leave them", choices: { layout: "times 1" } },
  ],
};

const commaQuestion: Question = {
  about: "delimiter",
  text: "Is the comma the separator of the columns, or the decimal mark as well?",
  answers: [
    { text: "Both: 0,45,1,20 is 0.45 and 1.20", choices: { delimiter: ",", decimalMark: "," } },
    { text: "Separator only: 0,45,1,20 is 0, 45, 1 and 20", choices: { delimiter: ",", decimalMark: "." } },
  ],
};

const mostAnswers = 6;

export function memberQuestion(names: readonly string[]): Question {
  const answers = names.length > mostAnswers ? [] : names.map((member) => ({ text: member, choices: { member } }));
  return { about: "member", text: "Which file of the archive is the recording?", answers };
}

const timeUnits = [
  ["seconds", 1],
  ["milliseconds", 1e-3],
  ["microseconds", 1e-6],
] as const;

export function textQuestions({ isAmbiguous, table: { time } }: TextPlan): Question[] {
  if (isAmbiguous) return [commaQuestion];
  if (time.form.kind === "none") return [noTimeQuestion];
  if (time.isDateOpen) return [dateQuestion];
  if (time.sure) return [];
  const answers = timeUnits.map(([text, timeUnit]) => ({ text, choices: { timeUnit } }));
  return [{ about: "timeUnit", text: `Is this right: ${inWords(time.assumed ?? "the unit of time")}?`, answers }];
}

const dateQuestion: Question = {
  about: "dates",
  text: "The dates can be read both ways: which number is the day?",
  answers: [
    { text: "The first: 03/04 is the 3rd of April", choices: { dateOrder: "day-first" } },
    { text: "The second: 03/04 is the 4th of March", choices: { dateOrder: "month-first" } },
  ],
};

/** What comes of the rows when they are read in one way; null where they cannot be. */
export interface RowsRead {
  readonly rows: number;
  readonly seconds: number;
}

/** Both readings of rows whose times do not rise, side by side; one, where putting them in order brings back none. */
export function disorderQuestion(problem: string, leftOut: RowsRead | null, sorted: RowsRead | null): Question {
  const say = (what: string, read: RowsRead | null) =>
    read ? `${what}: ${read.rows}\u00a0rows, ${formatValue(read.seconds, "s")}` : what;
  const isSame = leftOut !== null && leftOut.rows === sorted?.rows && leftOut.seconds === sorted.seconds;
  const leaveOut: Answer = { text: say("Leave them out", leftOut), choices: { disorder: "leave-out" } };
  const sort: Answer = { text: say("Put all in the order of their times", sorted), choices: { disorder: "sort" } };
  return {
    about: "disorder",
    text: `${problem} What is to become of them?`,
    answers: isSame ? [leaveOut] : [leaveOut, sort],
  };
}

/** Asked where two channels are named alike for one sensor, and nobody has said which it is. */
export function rivalQuestion(capture: Capture | null, { roles }: ReadChoices): Question[] {
  if (!capture || roles !== undefined) return [];
  return rivalsIn(capture.channels).map(({ role, names }) => ({
    about: "roles",
    text: `${names.join(" and ")} are named alike: which is the sensor ${role === "front-o2" ? "before" : "after"} the catalyst?`,
    answers: names.slice(0, mostAnswers).map((name) => ({
      text: name,
      choices: { roles: Object.fromEntries(names.map((one) => [one, one === name ? role : "other"])) },
    })),
  }));
}

/** Asked only where no channel is named as an oxygen sensor. */
export function roleQuestion(capture: Capture | null): Question[] {
  const isSensor = (role: Role) => role === "front-o2" || role === "rear-o2" || role === "front-lambda";
  if (!capture || capture.channels.some(({ role }) => isSensor(role))) return [];
  const likely = likelySensors(capture.channels.map((channel) => ({ ...channel, some: channel.series.samples }))).map(
    ({ name }) => name,
  );
  if (likely.length === 1) return [aloneQuestion(likely[0]!)];
  const which = "which is before the catalyst, and which after it?";
  const text =
    likely.length === 0 ? `Of the channels, ${which}` : `${severalOf(likely)} move like oxygen sensors: ${which}`;
  // Orders of 2,000 channels are four million.
  return [{ about: "roles", text, answers: orders(likely.slice(0, mostAnswers)).slice(0, mostAnswers) }];
}

function aloneQuestion(name: string): Question {
  const sides = [
    ["before", "front-o2"],
    ["after", "rear-o2"],
  ] as const;
  const answers = sides.map(([word, role]) => ({
    text: `${name} is ${word} it`,
    choices: { roles: { [name]: role } },
  }));
  return { about: "roles", text: `${name} moves like an oxygen sensor: is it before or after the catalyst?`, answers };
}

function orders(names: readonly string[]): Answer[] {
  return names.flatMap((front) =>
    names
      .filter((rear) => rear !== front)
      .map((rear) => ({
        text: `${front} before, ${rear} after`,
        choices: { roles: { [front]: "front-o2", [rear]: "rear-o2" } },
      })),
  );
}
