// Prints one exhibit, or saves it as PDF by the browser's print.

import { type Component, createSignal, Show } from "solid-js";
import { Portal } from "solid-js/web";
import type { ExhibitRecord } from "../../job/record/job.ts";
import { PrintedExhibits } from "./PrintedExhibits.tsx";

export const PrintOne: Component<{
  readonly exhibit: ExhibitRecord;
  readonly exhibits: readonly ExhibitRecord[];
  readonly loadBlob: (name: string) => Promise<Blob | null>;
}> = (props) => {
  const [isWanted, setWanted] = createSignal(false);
  const print = () => {
    window.print();
    setWanted(false);
  };
  return (
    <>
      <button type="button" onClick={() => setWanted(true)}>
        Print
      </button>
      <Show when={isWanted()}>
        <Portal ref={(place) => place.classList.add("print-only")}>
          <PrintedExhibits
            exhibits={props.exhibits}
            only={props.exhibit.id}
            loadBlob={props.loadBlob}
            onThere={print}
          />
        </Portal>
      </Show>
    </>
  );
};
