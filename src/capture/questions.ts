// What only the user can know of a file, with the likely answers.

import { likelySensors } from "./meaning/likely-sensors.ts";
import type { Capture, Role } from "./model/capture.ts";
import { noValueMark } from "./model/no-value-marks.ts";
import type { ReadChoices } from "./model/reader.ts";
import type { TextPlan } from "./text/plan.ts";

export interface Question {
  readonly about: "delimiter" | "time" | "timeUnit" | "roles" | "member" | "layout" | "missing";
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
    ...[1, 2, 5, 10, 20].map((volts) => ({ text: `${volts} V`, choices: { layout: `scale=${volts} unit=V` } })),
    { text: "Not known: leave them", choices: { layout: "scale=1" } },
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
  if (time.sure) return [];
  const answers = timeUnits.map(([text, timeUnit]) => ({ text, choices: { timeUnit } }));
  return [{ about: "timeUnit", text: `Is this right: ${time.assumed ?? "the unit of time"}?`, answers }];
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
    likely.length === 0 ? `Of the channels, ${which}` : `${likely.join(" and ")} move like oxygen sensors: ${which}`;
  return [{ about: "roles", text, answers: orders(likely).slice(0, mostAnswers) }];
}

/** Asked where a sensor shows one impossible number again and again, and nobody has said yet what it stands for. */
export function markQuestion(capture: Capture | null, { missing }: ReadChoices): Question[] {
  if (!capture || missing !== undefined) return [];
  for (const channel of capture.channels) {
    const mark = noValueMark(channel);
    if (!mark) continue;
    const number = String(mark.written).replace("-", "−");
    return [
      {
        about: "missing",
        text: `${channel.name} shows ${number} again and again, and no oxygen sensor does. Does it stand for “no value”?`,
        answers: [
          { text: `${number} means no value`, choices: { missing: mark.written } },
          { text: "Leave it as it is", choices: {} },
        ],
      },
    ];
  }
  return [];
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
