// What can be done with a made exhibit: keep a file of it, or put it on the clipboard.

import { type Component, createSignal, Show } from "solid-js";
import { type Problem, ProblemError } from "../../problem.ts";
import { canCopyPictures, copyPicture } from "../../report/exhibit/raster.ts";
import { saveFile } from "../parts/save-file.ts";

export const MadeActions: Component<{
  readonly png: Blob;
  readonly svg: Blob;
  /** File name without its ending. */
  readonly stem: string;
  readonly onProblem: (problem: Problem) => void;
}> = (props) => {
  const [said, setSaid] = createSignal("");
  async function copy(): Promise<void> {
    try {
      await copyPicture(props.png);
      setSaid("The picture is on the clipboard.");
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      props.onProblem(error.problem);
    }
  }
  return (
    <>
      <span role="status" class="made-said">
        {said()}
      </span>
      <Show when={canCopyPictures()}>
        <button type="button" onClick={copy}>
          Copy picture
        </button>
      </Show>
      <button type="button" onClick={() => saveFile(props.svg, `${props.stem}.svg`)}>
        Download SVG
      </button>
      <button type="button" onClick={() => saveFile(props.png, `${props.stem}.png`)}>
        Download PNG
      </button>
    </>
  );
};
