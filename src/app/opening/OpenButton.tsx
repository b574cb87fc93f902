// Opens the browser's own file chooser; the chosen recordings go to the bench.

import { type Component, type JSX, mergeProps } from "solid-js";
import { useOpening } from "./opening.ts";

export const OpenButton: Component<{ readonly children?: JSX.Element }> = (raw) => {
  const props = mergeProps({ children: "Open recording" as JSX.Element }, raw);
  const opening = useOpening();
  let chooser!: HTMLInputElement;
  const take = async () => {
    const files = [...(chooser.files ?? [])];
    chooser.value = "";
    await opening.openAll(files.map((file) => ({ name: file.name, file })));
  };
  return (
    <>
      <button type="button" onClick={() => chooser.click()}>
        {props.children}
      </button>
      <input ref={chooser} type="file" multiple hidden aria-label="Recording file" onChange={take} />
    </>
  );
};
