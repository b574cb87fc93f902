// Exhibits behind the customer's sheet, the latest revision of each, one a page.

import { type Component, createResource, For, onCleanup, Show } from "solid-js";
import { sheetRow } from "../../job/edits/exhibits.ts";
import type { ExhibitRecord } from "../../job/record/job.ts";

interface Props {
  readonly exhibits: readonly ExhibitRecord[];
  readonly paper: "A4" | "Letter";
  readonly loadBlob: (name: string) => Promise<Blob | null>;
}

export const PrintedExhibits: Component<Props> = (props) => (
  <For each={sheetRow(props.exhibits).map((revisions) => revisions.at(-1)!)}>
    {(exhibit) => <Exhibit exhibit={exhibit} loadBlob={props.loadBlob} />}
  </For>
);

const Exhibit: Component<{ readonly exhibit: ExhibitRecord; readonly loadBlob: Props["loadBlob"] }> = (props) => {
  const [address] = createResource(async () => {
    const blob = await props.loadBlob(props.exhibit.png);
    return blob && URL.createObjectURL(blob);
  });
  onCleanup(() => {
    const held = address();
    if (held) URL.revokeObjectURL(held);
  });
  return (
    <Show when={address()}>
      {(src) => (
        <figure class="printed-exhibit">
          <img src={src()} alt={props.exhibit.headline} />
        </figure>
      )}
    </Show>
  );
};
