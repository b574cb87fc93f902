// What a person is told when the program itself is at fault, or a part of it could not be fetched.

import { type Problem, ProblemError } from "../../problem.ts";

/**
 * @param part what failed, as the sentence needs it: "the lanes".
 * @returns the problem that the error carries, else one in our own words; never the error's own text.
 */
export function faultOf(error: unknown, part: string): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (isMissingPart(error))
    return {
      code: "unreadable",
      what: `A piece of the program that ${part} needs could not be fetched.`,
      remedy: "Start Tracewright's server again, or reload the page; what was saved stays.",
    };
  return {
    code: "fault",
    what: `A fault of the program stopped ${part}.`,
    remedy: "Try again; the rest of the page goes on, and what was saved stays.",
  };
}

/** A module that is loaded late: each browser words it differently, all as a TypeError that names the import. */
const isMissingPart = (error: unknown) =>
  error instanceof TypeError && /dynamically imported module|importing a module script/i.test(error.message);

/** Tells faults that no part of the page caught, each kind once. Ends with the answered function. */
export function watchFaults(show: (problem: Problem) => void, page: EventTarget = window): () => void {
  const told = new Set<string>();
  const tell = (error: unknown) => {
    const key = error instanceof Error ? `${error.name} ${error.message}` : String(error);
    if (told.has(key)) return;
    told.add(key);
    show(faultOf(error, "what was just asked for"));
  };
  const onRejection = (event: Event) => tell((event as PromiseRejectionEvent).reason);
  const onError = (event: Event) => {
    const { error } = event as ErrorEvent;
    if (error) tell(error); // without one it is a notice of the browser's own, such as of a resize loop
  };
  page.addEventListener("unhandledrejection", onRejection);
  page.addEventListener("error", onError);
  return () => {
    page.removeEventListener("unhandledrejection", onRejection);
    page.removeEventListener("error", onError);
  };
}
