// A freeze frame out of text: raw replies of service $02, or words as people write them.

import type { FreezeFrame } from "../evidence/evidence.ts";
import { parametersInReplies } from "../parameters/parameter-replies.ts";
import { type ParameterText, parametersInText } from "../parameters/parameter-text.ts";

interface FrameText {
  /** The frame that was there with what is told; null where nothing was understood. */
  readonly frame: FreezeFrame | null;
  readonly unread: readonly { readonly line: number; readonly says: string }[];
}

/** Bytes are looked for first. What is told takes the place of what was told before. */
export function frameInText(text: string, before: FreezeFrame | null): FrameText {
  const read = parametersInReplies(text, 0x42);
  const told = isEmpty(read) ? parametersInText(text) : read;
  if (isEmpty(told)) {
    const { unread } = read.isAnswered ? read : told;
    return { frame: null, unread: unread.length > 0 ? unread : [{ line: 1, says: nothingTold }] };
  }
  const { code, values, unread } = told;
  return { frame: { code: code ?? before?.code ?? "", values: { ...before?.values, ...values } }, unread };
}

const isEmpty = ({ code, values }: Pick<ParameterText, "code" | "values">): boolean =>
  code === null && Object.keys(values).length === 0;

const nothingTold = "Nothing was understood. Write each value with its name and unit, “engine speed 2000 rpm”.";
