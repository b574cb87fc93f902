// The sheet as it will be, and all that can be changed on it where it stands: words under a touch, points and words by a drag.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import { sheetPlot } from "../../report/exhibit/exhibit-svg.ts";
import { pageOf } from "../../report/exhibit/page.ts";
import { type PlacedWords, placedWords } from "../../report/exhibit/placed-words.ts";
import { placeUnder } from "../../report/exhibit/plot-area.ts";
import type { Place } from "../../report/exhibit/sheet.ts";
import type { Maker } from "./maker.ts";
import { NotePoint } from "./NotePoint.tsx";
import type { Pointed } from "./on-picture.ts";
import { PictureText } from "./PictureText.tsx";
import { PictureWords } from "./PictureWords.tsx";

export const Preview: Component<{
  readonly maker: Maker;
  /** Set while a note waits for its point. */
  readonly onPlace?: ((laneId: string, at: Place) => void) | undefined;
}> = (props) => {
  let image!: HTMLImageElement;
  const [written, write] = createSignal<string | null>(null);
  const words = createMemo(() => placedWords(props.maker.sheet()));
  const byKey = (key: string) => words().find((one) => keyOf(one) === key);
  /** The place of the sheet under a pointer. */
  const under = ({ clientX, clientY }: Pointed) => {
    const { left, top, width, height } = image.getBoundingClientRect();
    const { page, plot } = sheetPlot(props.maker.sheet());
    return placeUnder(plot, [((clientX - left) / width) * page.width, ((clientY - top) / height) * page.height]);
  };
  function touch(event: PointerEvent): void {
    const found = under(event);
    if (found && props.onPlace) props.onPlace(found.laneId, found.at);
  }
  function begin(event: MouseEvent): void {
    const found = under(event);
    if (found) write(`note ${props.maker.addNote(found.laneId, found.at)}`);
  }
  return (
    <div class="exhibit-preview">
      <Show when={props.maker.picture()} fallback={<p role="status">Drawing the sheet …</p>}>
        {(address) => (
          <div class="on-picture" classList={{ "on-picture-placing": props.onPlace !== undefined }}>
            <img
              ref={image}
              src={address()}
              alt={`Preview of the sheet: ${props.maker.sheet().headline}`}
              classList={{ placing: props.onPlace !== undefined }}
              draggable={false}
              onPointerUp={touch}
              onDblClick={begin}
            />
            <Hands words={words()} maker={props.maker} under={under} onWrite={write} />
            <Show when={byKey(written() ?? "")}>
              {(one) => (
                <PictureText
                  words={one()}
                  page={pageOf(props.maker.sheet().paper)}
                  maker={props.maker}
                  onClose={() => write(null)}
                />
              )}
            </Show>
          </div>
        )}
      </Show>
      <p class="soft">Touch words to change them. Touch a trace twice to add a note; drag its point or its words.</p>
    </div>
  );
};

/** What lies over the words and points of the picture, to be touched and dragged. */
const Hands: Component<{
  readonly words: readonly PlacedWords[];
  readonly maker: Maker;
  readonly under: (pointer: Pointed) => { readonly laneId: string; readonly at: Place } | null;
  readonly onWrite: (key: string) => void;
}> = (props) => {
  const keys = createMemo(() => props.words.map(keyOf));
  const byKey = (key: string) => props.words.find((one) => keyOf(one) === key);
  const shared = () => ({ page: pageOf(props.maker.sheet().paper), maker: props.maker, under: props.under });
  return (
    <For each={keys()}>
      {(key) => (
        <Show when={byKey(key)}>
          {(one) => (
            <>
              <PictureWords words={one()} {...shared()} onWrite={() => props.onWrite(key)} />
              <Show when={one().point}>{(point) => <NotePoint id={one().id} point={point()} {...shared()} />}</Show>
            </>
          )}
        </Show>
      )}
    </For>
  );
};

const keyOf = ({ kind, id }: PlacedWords): string => (id === "" ? kind : `${kind} ${id}`);
