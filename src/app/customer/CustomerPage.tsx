// The customer's page as it is printed: one sheet of paper, type stepped down until it fits, never below 8 pt.

import { type Component, createEffect, createSignal, For, on, Show } from "solid-js";
import type { CustomerSheet } from "../../report/customer/customer-sheet.ts";
import { smallPictureIn } from "../../report/exhibit/small-picture.ts";
import { createBlobAddress } from "../parts/blob-address.ts";

export interface PageProps {
  readonly sheet: CustomerSheet;
  /** "revision 2, 4 May 2026"; "draft". */
  readonly mark: string;
  readonly loadBlob: (name: string) => Promise<Blob | null>;
  /** Told whether all of it fits. */
  readonly onFit?: (fits: boolean) => void;
}

/** Sizes of the type, pt, largest first. */
const sizes = [10.5, 10, 9.5, 9, 8.5, 8] as const;

export const CustomerPage: Component<PageProps> = (props) => {
  let page!: HTMLElement;
  const [isPictured, setPictured] = createSignal(0);
  createEffect(
    on([() => props.sheet, isPictured], () => {
      queueMicrotask(() => page.isConnected && props.onFit?.(fitted(page)));
    }),
  );
  return (
    <article class={`customer-page ${props.sheet.paper.toLowerCase()}`} ref={page}>
      <header>
        <h1>{props.sheet.title}</h1>
        <span>{props.mark}</span>
      </header>
      <About sheet={props.sheet} />
      <Show when={props.sheet.picture}>
        {(name) => (
          <Picture
            name={name()}
            alt="Front and rear sensor over time, as made for this job"
            {...(props.sheet.pictured ? { caption: `Recorded ${props.sheet.pictured}` } : {})}
            loadBlob={props.loadBlob}
            onThere={() => setPictured((so) => so + 1)}
          />
        )}
      </Show>
      <p class="answer">{props.sheet.answer}</p>
      <Show when={props.sheet.sure}>
        <p class="sure">{props.sheet.sure}</p>
      </Show>
      <Columns sheet={props.sheet} />
      <Show when={props.sheet.photos?.length}>
        <div class="photos">
          <For each={props.sheet.photos}>
            {({ name, of }) => (
              <Picture
                name={name}
                alt={`Photo: ${of}`}
                caption={of}
                loadBlob={props.loadBlob}
                onThere={() => setPictured((so) => so + 1)}
              />
            )}
          </For>
        </div>
      </Show>
      <Approval text={props.sheet.approval} />
    </article>
  );
};

type Shown = Component<{ readonly sheet: CustomerSheet }>;

/** Job, vehicle, customer, date. */
const About: Shown = (props) => (
  <dl>
    <For each={props.sheet.about}>
      {([name, value]) => (
        <div>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      )}
    </For>
  </dl>
);

const Columns: Shown = (props) => (
  <div class="columns">
    <For each={props.sheet.sections}>
      {({ heading, lines }) => (
        <section>
          <h2>{heading}</h2>
          <For each={lines}>{(line) => <p>{line}</p>}</For>
        </section>
      )}
    </For>
    <Show when={props.sheet.choices.length > 0}>
      <section>
        <h2>Your choices</h2>
        <For each={props.sheet.choices}>
          {({ what, price }) => (
            <p class="choice">
              <span>{what}</span>
              <b>{price}</b>
            </p>
          )}
        </For>
      </section>
    </Show>
  </div>
);

/** What was agreed to, or where it is signed. */
const Approval: Component<{ readonly text: CustomerSheet["approval"] }> = (props) => (
  <Show
    when={props.text}
    fallback={
      <footer>
        <span>Chosen, and up to which amount</span>
        <span>Name, date, signature</span>
      </footer>
    }
  >
    <p class="approval">{props.text}</p>
  </Show>
);

/**
 * The largest type with which all of it stands on the sheet; false where even the smallest is too large. Measured at the true size
 * of the paper, also where a narrow window shows it as wide as there is room.
 */
function fitted(page: HTMLElement): boolean {
  page.classList.add("true-size");
  const size = sizes.find((one) => {
    page.style.setProperty("font-size", `${one}pt`);
    return page.scrollHeight <= page.clientHeight + 1;
  });
  page.classList.remove("true-size");
  return size !== undefined;
}

const Picture: Component<{
  readonly name: string;
  readonly alt: string;
  readonly caption?: string;
  readonly loadBlob: PageProps["loadBlob"];
  readonly onThere: () => void;
}> = (props) => {
  const address = createBlobAddress(
    () => props.name,
    async (name) => {
      const blob = await props.loadBlob(name);
      return blob && name.endsWith(".svg") ? forThisSheet(blob) : blob;
    },
  );
  return (
    <Show when={address()}>
      {(src) => (
        <figure>
          <img src={src()} alt={props.alt} onLoad={() => props.onThere()} />
          <Show when={props.caption}>{(text) => <figcaption>{text()}</figcaption>}</Show>
        </figure>
      )}
    </Show>
  );
};

/** The sensor lanes alone, drawn for the width of this sheet; the whole exhibit where it was made without. */
async function forThisSheet(exhibit: Blob): Promise<Blob> {
  const small = smallPictureIn(await exhibit.text());
  return small === null ? exhibit : new Blob([small], { type: exhibit.type });
}
