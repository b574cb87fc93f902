// The job's exhibits, sheet by sheet, newest revision first: to look at, to take along, to revise.

import { type Component, createResource, createSignal, For, onCleanup, Show } from "solid-js";
import { sheetRow } from "../../job/edits/exhibits.ts";
import type { ExhibitRecord } from "../../job/record/job.ts";
import type { Problem } from "../../problem.ts";
import { editsIn } from "../../report/exhibit/edits.ts";
import { exhibitFileStem } from "../../report/exhibit/raster.ts";
import { dateText, localInstant } from "../../signal/written/date-text.ts";
import { ProblemNote } from "../parts/ProblemNote.tsx";
import "./exhibit.css";
import { MadeActions } from "./MadeActions.tsx";
import { PrintOne } from "./PrintOne.tsx";
import type { ExhibitListProps } from "./types.ts";

export const ExhibitList: Component<ExhibitListProps> = (props) => (
  <ol class="exhibit-list">
    <For each={sheetRow(props.exhibits)} fallback={<li class="soft">No exhibit yet.</li>}>
      {(revisions, i) => (
        <For each={[...revisions].reverse()}>
          {(exhibit) => <ExhibitItem {...props} exhibit={exhibit} sheet={i() + 1} />}
        </For>
      )}
    </For>
    <Show when={props.removed}>
      {(headline) => (
        <li role="status">
          <p class="soft">Removed: {headline()}</p>
          <button type="button" onClick={() => props.onPutBack?.()}>
            Put it back
          </button>
        </li>
      )}
    </Show>
  </ol>
);

const ExhibitItem: Component<ExhibitListProps & { readonly exhibit: ExhibitRecord; readonly sheet: number }> = (
  props,
) => {
  const [blobs] = createResource(
    () => props.exhibit,
    async ({ svg, png }) => ({ svg: await props.loadBlob(svg), png: await props.loadBlob(png) }),
  );
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const name = () => `Sheet ${props.sheet}, revision ${props.exhibit.revision}`;
  const revise = async () => {
    const svg = blobs()?.svg;
    props.onRevise?.(props.exhibit, svg ? editsIn(await svg.text()) : null);
  };
  return (
    <li>
      <Show when={blobs()?.png}>{(png) => <Thumbnail png={png()} alt={`${name()}: ${props.exhibit.headline}`} />}</Show>
      <div class="words">
        <p class="soft">
          {name()}, {props.exhibit.paper}, {dateText(localInstant(new Date(props.exhibit.madeAt)))}
        </p>
        <p>{props.exhibit.headline}</p>
        <Show when={blobs.state === "ready" && !blobs()?.png}>
          <p class="soft">Its picture is no longer in this browser.</p>
        </Show>
        <div class="row">
          <Show when={blobs()?.png && blobs()?.svg}>
            <MadeActions
              png={blobs()!.png!}
              svg={blobs()!.svg!}
              stem={exhibitFileStem("exhibit", props.sheet, props.exhibit.revision)}
              onProblem={setProblem}
            />
          </Show>
          <Show when={props.onRevise}>
            <button type="button" onClick={revise}>
              Revise
            </button>
          </Show>
          <PrintOne exhibit={props.exhibit} exhibits={props.exhibits} loadBlob={props.loadBlob} />
          <Show when={props.onRemove}>
            <button type="button" class="danger" onClick={() => props.onRemove?.(props.exhibit)}>
              Remove
            </button>
          </Show>
        </div>
        <Show when={problem()}>{(given) => <ProblemNote problem={given()} onDismiss={() => setProblem(null)} />}</Show>
      </div>
    </li>
  );
};

/** Opens the picture in full, in a tab of its own. */
const Thumbnail: Component<{ readonly png: Blob; readonly alt: string }> = (props) => {
  const address = URL.createObjectURL(props.png);
  onCleanup(() => URL.revokeObjectURL(address));
  return (
    <a href={address} target="_blank" rel="noopener" class="thumbnail">
      <img src={address} alt={props.alt} />
    </a>
  );
};
