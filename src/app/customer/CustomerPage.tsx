// The customer's page as it is printed.

import { type Component, createResource, For, onCleanup, Show } from "solid-js";
import type { ExhibitRecord } from "../../job/record/job.ts";
import type { CustomerSheet } from "../../report/customer/customer-sheet.ts";
import type { ExhibitListProps } from "../exhibits/types.ts";

type LoadBlob = ExhibitListProps["loadBlob"];

export const CustomerPage: Component<{ readonly sheet: CustomerSheet; readonly loadBlob: LoadBlob }> = (props) => (
  <article class="customer-page">
    <h1>{props.sheet.title}</h1>
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
    <p>{props.sheet.setting}</p>
    <p class="answer">{props.sheet.answer}</p>
    <For each={props.sheet.sections}>
      {({ heading, lines }) => (
        <section>
          <h2>{heading}</h2>
          <ul>
            <For each={lines}>{(line) => <li>{line}</li>}</For>
          </ul>
        </section>
      )}
    </For>
    <For each={props.sheet.exhibits}>{(exhibit) => <Picture exhibit={exhibit} loadBlob={props.loadBlob} />}</For>
    <footer>
      <span>Technician</span>
      <span>Customer</span>
    </footer>
  </article>
);

const Picture: Component<{ readonly exhibit: ExhibitRecord; readonly loadBlob: LoadBlob }> = (props) => {
  const [address] = createResource(
    () => props.exhibit.png,
    async (name) => {
      const blob = await props.loadBlob(name);
      return blob && URL.createObjectURL(blob);
    },
  );
  onCleanup(() => {
    const held = address();
    if (held) URL.revokeObjectURL(held);
  });
  return (
    <Show when={address()}>
      {(src) => (
        <figure>
          <img src={src()} alt={props.exhibit.headline} />
        </figure>
      )}
    </Show>
  );
};
