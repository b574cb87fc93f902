// Where the rear would have stayed behind a sound catalyst: whether it is shown, whether it may be, and the trace itself.

import { type Accessor, createMemo } from "solid-js";
import type { HealthyRequest } from "../../../workers/protocol.ts";
import type { HealthyTrace } from "../../exhaust/store/healthy.ts";
import type { StoreStudy } from "../../exhaust/terms/store-study.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { subject } from "../core/context.ts";
import type { Ground } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { benchChoices } from "../core/whole-choices.ts";

export interface Healthy {
  readonly isShown: Accessor<boolean>;
  show(isShown: boolean): void;
  /** What the store's fit tells of the recording; null where there is none. */
  readonly study: Accessor<StoreStudy | null>;
  /** Why it is not drawn: the fit explains too little; null where it may be. */
  readonly refusal: Accessor<string | null>;
  /** While it is shown; null until the worker has answered. */
  readonly trace: Accessor<HealthyTrace | null>;
  /** The same for paper, shown or not; null where it cannot be had. */
  bring(): Promise<HealthyTrace | null>;
  /** What grey band and thin line are, for people. */
  says(trace: HealthyTrace): string;
}

export const { Context: HealthyContext, use: useHealthy } = subject<Healthy>("The healthy trace");

export function createHealthy({ service, desk, bench, summary, readings }: Ground): Healthy {
  const isShown = () => bench.state().sound ?? false;
  const study = createMemo(() => readings.whole()?.storeStudy ?? null);
  const isTold = createMemo(() => (study()?.explained ?? 0) >= desk.limits().bandExplained);
  const request = createMemo((): HealthyRequest | null => {
    const [capture, whole, storeStudy] = [summary(), readings.whole(), study()];
    if (!capture || !whole || !storeStudy || !isTold() || readings.isReadingWhole()) return null;
    const { awake, warmth } = whole;
    return {
      take: capture.take,
      choices: benchChoices(desk.job(), bench.state()),
      fitted: { awake, warmth, storeStudy },
    };
  });
  const asked = async (ask: HealthyRequest, signal?: AbortSignal) => {
    const outcome = await service.healthy(ask, { urgency: "span", signal });
    return outcome.ok ? outcome.value : null;
  };
  const latest = createLatest(() => (isShown() ? request() : null), asked, { about: ({ take }) => take.captureId });
  return {
    isShown,
    show: (shown) => bench.edit(({ sound: _, ...state }) => (shown ? { ...state, sound: true } : state)),
    study,
    refusal: createMemo(() => {
      const found = study();
      if (!found || isTold()) return null;
      const least = percent(desk.limits().bandExplained);
      return `The fitted car explains only ${percent(found.explained)} of the rear's movement. Below ${least} neither it nor a sound one is drawn: they would mislead.`;
    }),
    trace: latest.value,
    async bring() {
      const ask = request();
      return ask ? asked(ask) : null;
    },
    says: ({ stores: [least] }) =>
      `Grey: where the rear would have stayed on this very drive behind a sound catalyst, one that holds ${formatValue(least, "g")} or more. Thin line: the car as fitted, with ${grams(study()?.best.guess.store ?? 0)}; it explains ${percent(study()?.explained ?? 0)} of the rear's movement.`,
  };
}

export const grams = (value: number): string => formatValue(value, "g", 0.01);
const percent = (share: number): string => formatValue(Math.round(100 * share), "%", 1);
