// Every lift-off as a small picture of its own, all on one scale: which of them leave the healthy band, which are like the reference's.

import { type Component, createMemo, createSignal, For, Show } from "solid-js";
import type { HealthyTrace } from "../../exhaust/store/healthy.ts";
import { formatNumber } from "../../signal/written/digits.ts";
import { formatValue } from "../../signal/written/reading-text.ts";
import { useComparing } from "../comparing/comparing.ts";
import { useGround } from "../core/ground.ts";
import { createLatest } from "../core/latest.ts";
import { useHealthy } from "../healthy/healthy.ts";
import { useLiftOffs } from "../lift-offs/lift-offs.ts";
import { about, rangeOver, type Side, type SmallEventLook, smallEvents } from "./events.ts";
import { SmallEvent } from "./SmallEvent.tsx";

export const EachLiftOff: Component = () => {
  const liftOffs = useLiftOffs();
  const [isOpen, setOpen] = createSignal(false);
  return (
    <Show when={liftOffs.list().length > 0}>
      <section aria-label="Each lift-off">
        <details open={isOpen()} onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>Each lift-off, on one scale</summary>
          <Show when={isOpen()}>
            <Pictures />
          </Show>
        </details>
      </section>
    </Show>
  );
};

const Pictures: Component = () => {
  const { service, desk } = useGround();
  const liftOffs = useLiftOffs();
  const healthy = useHealthy();
  const sides = createSides();
  const brought = createLatest(
    () => ({ study: healthy.study(), refusal: healthy.refusal() }),
    () => healthy.bring(),
  );
  const ask = createMemo(() => ({ sides: sides(), healthy: brought.value() }));
  const events = createLatest(ask, async ({ sides: all, healthy: band }) =>
    (
      await Promise.all(all.map((side) => smallEvents(service.window, side, side.whose === "suspect" ? band : null)))
    ).flat(),
  );
  const range = createMemo(() => rangeOver(events.value() ?? []));
  const choose = ({ id, whose }: SmallEventLook) => (whose === "suspect" ? () => liftOffs.select(id) : undefined);
  const bandSays = () => {
    if (brought.isPending()) return "Driving a sound catalyst …";
    const trace = brought.value();
    return trace ? bandText(trace) : (healthy.refusal() ?? "No sound catalyst could be driven on this recording.");
  };
  return (
    <>
      <div class="small-events">
        <For each={events.value() ?? []}>
          {(event) => (
            <SmallEvent
              event={event}
              range={range()}
              level={desk.limits().switchLevel}
              isChosen={event.whose === "suspect" && liftOffs.selected()?.id === event.id}
              onChoose={choose(event)}
            />
          )}
        </For>
      </div>
      <p class="soft">
        {formatNumber(range()[0], 2)} … {formatNumber(range()[1], 2)}
        {"\u00a0V"}, {formatValue(-about.from, "s")} before to {formatValue(about.to, "s")} after the front's fall.{" "}
        {bandSays()}
      </p>
    </>
  );
};

const bandText = ({ stores: [least] }: HealthyTrace): string =>
  `Grey: where the rear would have stayed on this very drive behind a sound catalyst, one that holds ${formatValue(least, "g")} or more.`;

/** The recording's that count, then the reference's. */
function createSides() {
  const { summary, bench } = useGround();
  const liftOffs = useLiftOffs();
  const comparing = useComparing();
  return createMemo((): readonly Side[] => {
    const [capture, reference] = [summary(), comparing.reference()];
    const own = liftOffs.list().map((lift, i) => ({ ...lift, label: `Lift-off ${i + 1}` }));
    const counted = own.filter(({ setAside }) => setAside !== "hand");
    const theirs = reference?.comparable.liftOffs.map((lift, i) => ({ ...lift, label: `Reference ${i + 1}` })) ?? [];
    return [
      ...(capture ? [{ whose: "suspect" as const, summary: capture, bank: bench.state().bank, events: counted }] : []),
      ...(reference
        ? [{ whose: "reference" as const, summary: reference.summary, bank: reference.comparable.bank, events: theirs }]
        : []),
    ];
  });
}
