// Larger letters, taller lanes, and single letters as keys or not.

import type { Component } from "solid-js";
import { Dialog } from "../parts/Dialog.tsx";
import { PickField } from "../parts/Fields.tsx";
import { laneHeights, letterSizes, useDisplay } from "./display.ts";

const letterWords = ["As usual", "Larger", "Largest"] as const;
const laneWords = ["All in the window", "Taller", "Tallest"] as const;

export const DisplaySheet: Component<{ readonly onClose: () => void }> = (props) => {
  const { display, choose } = useDisplay();
  return (
    <Dialog title="Size and keys" narrow onClose={props.onClose}>
      <PickField
        label="Letters"
        value={String(display().letters)}
        options={letterSizes.map((size, i) => [String(size), letterWords[i]!] as const)}
        onChange={(size) => choose({ letters: Number(size) })}
      />
      <PickField
        label="Lanes"
        value={String(display().lanes)}
        options={laneHeights.map((height, i) => [String(height), laneWords[i]!] as const)}
        onChange={(height) => choose({ lanes: Number(height) })}
      />
      <label class="check">
        <input
          type="checkbox"
          checked={display().letterKeys}
          onChange={(event) => choose({ letterKeys: event.currentTarget.checked })}
        />
        Single letters are keys, such as N for the next lift-off
      </label>
      <p class="soft">Kept in this browser, for every job.</p>
    </Dialog>
  );
};
