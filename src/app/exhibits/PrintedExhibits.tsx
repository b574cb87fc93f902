// Exhibits on paper, the latest revision of each, one a page at its true size, numbered as the job stands now.

import { type Component, For, Show } from "solid-js";
import { sheetRow } from "../../job/edits/exhibits.ts";
import type { ExhibitRecord } from "../../job/record/job.ts";
import { type SheetNumber, withSheetNumber } from "../../report/exhibit/sheet-number.ts";
import { createBlobAddress } from "../parts/blob-address.ts";
import "./printed.css";

interface Props {
  /** All of the job: they tell the numbers. */
  readonly exhibits: readonly ExhibitRecord[];
  /** The only one to be printed; without it, all. */
  readonly only?: string | undefined;
  readonly loadBlob: (name: string) => Promise<Blob | null>;
  /** Told when one is ready for the printer. */
  readonly onThere?: (() => void) | undefined;
}

export const PrintedExhibits: Component<Props> = (props) => {
  const sheets = () =>
    sheetRow(props.exhibits).map((revisions, i, row) => ({
      exhibit: revisions.find(({ id }) => id === props.only) ?? revisions.at(-1)!,
      number: { sheet: i + 1, sheets: row.length },
    }));
  const wanted = () => sheets().filter(({ exhibit }) => props.only === undefined || exhibit.id === props.only);
  return (
    <For each={wanted()}>
      {(one) => <Exhibit {...one} loadBlob={props.loadBlob} onThere={() => props.onThere?.()} />}
    </For>
  );
};

const Exhibit: Component<{
  readonly exhibit: ExhibitRecord;
  readonly number: SheetNumber;
  readonly loadBlob: Props["loadBlob"];
  readonly onThere: () => void;
}> = (props) => {
  const address = createBlobAddress(
    () => props.exhibit,
    async ({ svg, png }) => {
      const drawn = await props.loadBlob(svg);
      if (!drawn) return props.loadBlob(png);
      return new Blob([withSheetNumber(await drawn.text(), props.number)], { type: drawn.type });
    },
  );
  return (
    <Show when={address()}>
      {(src) => (
        <figure class={`printed-exhibit ${props.exhibit.paper.toLowerCase()}`}>
          <img src={src()} alt={props.exhibit.headline} onLoad={() => props.onThere()} />
        </figure>
      )}
    </Show>
  );
};
