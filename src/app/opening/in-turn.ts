// Several files at once: one after the other, and each ends as opened, asked about, or explained. None takes another's place.

import { type Accessor, createEffect, on } from "solid-js";
import type { Problem } from "../../problem.ts";
import type { Notices } from "../core/notices.ts";
import type { Question } from "./read-file.ts";

type Open = (file: Blob, name: string) => Promise<boolean>;

export interface InTurn {
  /** Waits for its turn. */
  one<T>(work: () => Promise<T>): Promise<T>;
  all(files: readonly Dropped[]): Promise<void>;
}

/** Something that was dropped or chosen; a folder has no bytes. */
export interface Dropped {
  readonly name: string;
  readonly file: File | null;
}

interface Told {
  readonly open: Open;
  readonly question: Accessor<Question | null>;
  readonly notices: Notices;
}

interface Left {
  readonly name: string;
  readonly why: string;
}

export function createInTurn({ open, question, notices }: Told): InTurn {
  let turn: Promise<unknown> = Promise.resolve();
  let closed: (() => void)[] = [];
  createEffect(
    on(question, (now) => {
      if (now) return;
      for (const tell of closed) tell();
      closed = [];
    }),
  );
  /** The sheet that was answered opens its file before anybody else has a turn. */
  const answered = () => (question() ? new Promise<void>((tell) => closed.push(tell)) : Promise.resolve());
  const one = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = turn.then(work);
    turn = mine.catch(() => {}); // whoever asked hears of it
    return mine;
  };
  /** Opens it in its turn, while no question of another stands open. */
  async function alone(file: File, name: string): Promise<boolean> {
    await answered();
    const isOpen = await one(async () => {
      if (question()) return null;
      notices.dismiss();
      return open(file, name);
    });
    return isOpen ?? alone(file, name);
  }
  /** Null: it is open, or was asked about. */
  async function opened({ name, file }: Dropped): Promise<Left | null> {
    if (!file) return { name, why: folder.what };
    if (await alone(file, name)) return null;
    if (!question()) return { name, why: notices.problem()?.what ?? "Reading was cancelled." };
    await answered();
    return null;
  }
  return {
    one,
    async all(files) {
      const [only] = files;
      if (files.length === 1 && only && !only.file) return notices.show({ ...folder, where: only.name });
      const left: Left[] = [];
      for (const file of files) {
        const why = await opened(file);
        if (why) left.push(why);
      }
      if (files.length > 1 && left.length > 0) notices.show(notAll(files.length, left));
    },
  };
}

/** So many are named; the others are counted. */
const mostNamed = 20;

const notAll = (all: number, left: readonly Left[]): Problem => ({
  code: "not-a-recording",
  what: `${left.length} of ${all} files were not opened. ${left
    .slice(0, mostNamed)
    .map(({ name, why }) => `${name}: ${why}`)
    .join(" ")}${left.length > mostNamed ? ` And ${left.length - mostNamed} more.` : ""}`,
  remedy: "Open one of them alone to hear more of what would help.",
});

const folder = {
  code: "not-a-recording",
  what: "This is a folder, not a recording.",
  remedy: "Drop the files inside it, or a zip of them.",
} as const;
