// The state of all subjects, put together once; `App.tsx` gives each to the screens.

import { createEffect, on } from "solid-js";
import type { CaptureService } from "../../workers/protocol.ts";
import { makeShelf, type Shelf } from "../job/shelf/shelf.ts";
import type { JobStore } from "../job/storage/store.ts";
import type { Problem } from "../problem.ts";
import { createTheme, type ThemeState } from "./bench/theme.ts";
import { type Comparing, createComparing } from "./comparing/comparing.ts";
import type { Ground } from "./core/ground.ts";
import { createGround } from "./core/make-ground.ts";
import { createSheets, type Sheets } from "./core/sheets.ts";
import { createStorekeeper, type Storekeeper } from "./core/storekeeper.ts";
import { createDimensions, type Dimensions } from "./dimensions/dimensions.ts";
import { createDisplay, type DisplayState } from "./display/display.ts";
import { createExhibits, type Exhibits } from "./exhibits/exhibits.ts";
import { createRecorded, type RecordedState } from "./guide/recorded.ts";
import { createHealthy, type Healthy } from "./healthy/healthy.ts";
import { createHealthyLayer } from "./healthy/healthy-layer.ts";
import { createFilterLayer } from "./lanes/filter-layer.ts";
import { createLayers, type Layers } from "./lanes/layers.ts";
import { createOwnLayer } from "./lanes/own-layer.ts";
import { createLiftOffs, type LiftOffs } from "./lift-offs/lift-offs.ts";
import { browserPlatform, createOffline, type Offline } from "./offline/offline.ts";
import { createOpening, type Opening } from "./opening/opening.ts";
import { createPlaces, type Places } from "./places/places.ts";
import { createInstants, type Instants } from "./reading-out/instants.ts";
import { createLoupe, type LoupeState } from "./reading-out/loupe.ts";
import { createSameRun, type SameRun } from "./same-run/same-run.ts";
import { createStretches, type Stretches } from "./stretches/stretches.ts";

export interface Workbench extends Ground {
  readonly theme: ThemeState;
  readonly display: DisplayState;
  readonly sheets: Sheets;
  readonly storekeeper: Storekeeper;
  readonly opening: Opening;
  readonly instants: Instants;
  readonly loupe: LoupeState;
  readonly places: Places;
  readonly dimensions: Dimensions;
  readonly liftOffs: LiftOffs;
  readonly stretches: Stretches;
  readonly exhibits: Exhibits;
  readonly recorded: RecordedState;
  readonly comparing: Comparing;
  readonly layers: Layers;
  readonly healthy: Healthy;
  readonly sameRun: SameRun;
  readonly offline: Offline;
}

export interface Givens {
  readonly service: CaptureService;
  readonly store: JobStore;
  /** Without it, the browser's own. */
  readonly shelf?: Shelf;
  /** Tells "revived" when the worker had died and was started again; `detail` holds the problem where not all is at hand again. */
  readonly revivals?: EventTarget;
}

export function createWorkbench({ service, store, shelf = makeShelf(), revivals }: Givens): Workbench {
  const ground = createGround(service, store);
  revivals?.addEventListener("revived", (event) => tellRevival((event as CustomEvent<Problem | null>).detail, ground));
  const instants = createInstants(ground);
  const dimensions = createDimensions(ground, instants.times);
  const liftOffs = createLiftOffs(ground);
  const sameRun = createSameRun({ ...ground, dimensions });
  const comparing = createComparing(ground, dimensions.readouts, shelf);
  // Whoever compares the two has answered whether they are one run.
  createEffect(on(comparing.reference, (reference) => reference && sameRun.makeOffer(null), { defer: true }));
  // Without a reference there is nothing to slide.
  createEffect(() => comparing.reference() || dimensions.tool() !== "slide" || dimensions.setTool("pan"));
  const healthy = createHealthy(ground);
  const filterLayer = createFilterLayer(ground, dimensions.readouts);
  const kinds = [createOwnLayer(ground), filterLayer, ...comparing.layers, createHealthyLayer(ground, healthy)];
  const layers = createLayers(kinds, { view: ground.view.view, readouts: dimensions.readouts });
  return {
    ...ground,
    theme: createTheme(),
    display: createDisplay(),
    sheets: createSheets(),
    storekeeper: createStorekeeper({ ...ground, shelf }),
    sameRun,
    opening: createOpening(ground, sameRun.makeOffer),
    instants,
    loupe: createLoupe(ground, instants),
    places: createPlaces(ground),
    dimensions,
    liftOffs,
    stretches: createStretches(ground),
    comparing,
    layers,
    healthy,
    exhibits: createExhibits({ ...ground, dimensions, liftOffs, comparing, layers, healthy }),
    recorded: createRecorded(ground),
    offline: createOffline(ground.desk.flush, browserPlatform()),
  };
}

function tellRevival(problem: Problem | null, { notices }: Ground): void {
  if (problem) notices.show(problem);
  else notices.say("A part of the program stopped and was started again; everything is at hand.");
}
