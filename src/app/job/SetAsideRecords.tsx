// Job records that could not be read: what is wrong with each, and a way to keep or delete it.

import { type Component, createResource, For, Show } from "solid-js";
import { useGround } from "../core/ground.ts";
import { saveFile } from "../parts/save-file.ts";

export const SetAsideRecords: Component<{
  /** Set once the jobs were read: what cannot be read is set aside by that. */
  readonly jobsRead: unknown;
}> = (props) => {
  const { aside } = useGround().desk.store;
  const [records, { refetch }] = createResource(
    () => props.jobsRead,
    () => aside.list(),
  );
  const remove = async (id: string) => {
    await aside.remove(id);
    await refetch();
  };
  return (
    <Show when={(records()?.length ?? 0) > 0}>
      <h3>Set aside, because they cannot be read</h3>
      <ul class="lines">
        <For each={records()}>
          {({ id, problem, text }) => (
            <li>
              <div class="grow">
                <strong>{problem.what}</strong>
                <p class="soft">{problem.where}</p>
              </div>
              <button type="button" onClick={() => saveFile(new Blob([text]), `set-aside-${id}.txt`)}>
                Save as a file
              </button>
              <button type="button" class="plain" onClick={() => void remove(id)}>
                Delete
              </button>
            </li>
          )}
        </For>
      </ul>
    </Show>
  );
};
