// Asked before a job leaves the desk that could not be saved: nothing of it is lost unless the person says so.

import { type Component, createSignal } from "solid-js";
import { useGround } from "../core/ground.ts";
import type { Leaving } from "../core/job-desk.ts";
import { Dialog } from "../parts/Dialog.tsx";
import { saveBundle } from "./save-bundle.ts";

export const LeavingSheet: Component<{ readonly leaving: Leaving }> = (props) => {
  const ground = useGround();
  const [isTrying, setTrying] = createSignal(false);
  const stay = () => props.leaving.answer(false);
  const tryAgain = async () => {
    setTrying(true);
    const isSaved = await ground.desk.flush();
    setTrying(false);
    if (isSaved) props.leaving.answer(true);
  };
  return (
    <Dialog
      title="This job is not saved"
      narrow
      onClose={stay}
      foot={
        <>
          <button type="button" class="danger" onClick={() => props.leaving.answer(true)}>
            Leave, and lose its changes
          </button>
          <button type="button" class="main" disabled={isTrying()} onClick={() => void tryAgain()}>
            {isTrying() ? "Saving …" : "Try again"}
          </button>
        </>
      }
    >
      <p>
        The browser did not take the last changes of “{props.leaving.job.name}”. They are on the bench only, and would
        be lost if another job were opened now.
      </p>
      <p>Delete a job that is done with under “Jobs”, or keep this one as a file, and try again.</p>
      <div class="row">
        <button type="button" onClick={() => void saveBundle(ground)}>
          Save job bundle
        </button>
        <button type="button" onClick={stay}>
          Stay with this job
        </button>
      </div>
    </Dialog>
  );
};
