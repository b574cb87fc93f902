// The size of an engine, as people write it: what it is taken as stands below, or why it cannot be taken.

import type { Component } from "solid-js";
import { litresOf } from "../../signal/written/engine-size.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { TextField } from "./Fields.tsx";

/** Something stands there that is no engine's size. */
export const isNoSize = (text: string): boolean => text.trim() !== "" && litresOf(text) === null;

/** l, as read. */
export const sizeText = (litres: number): string => formatValue(litres, "l", 0.01);

export const EngineSizeField: Component<{
  readonly value: string;
  /** Stands below the empty field. */
  readonly hint: string;
  readonly onChange: (value: string) => void;
}> = (props) => {
  const hint = () => {
    const litres = litresOf(props.value);
    if (props.value.trim() === "") return props.hint;
    return litres === null
      ? "No size can be read here. Write litres or cm³, as in 1.6 or 1598 cm³."
      : `Taken as ${sizeText(litres)}.`;
  };
  return (
    <TextField
      label="Engine size"
      value={props.value}
      hint={hint()}
      hintIsBad={isNoSize(props.value)}
      onChange={props.onChange}
    />
  );
};
