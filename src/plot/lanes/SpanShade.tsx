// A span of time the user chose, shaded through all lanes; both edges can be moved.

import { type Component, For, Show } from "solid-js";
import { toPixel } from "../../drawing/paths.ts";
import type { Span } from "../../exhaust/terms/analysis.ts";
import { formatTime } from "../../signal/written/reading-text.ts";
import { Grip } from "../hands/Grip.tsx";
import { axisHeight } from "../stage/layout.ts";
import type { Stage } from "../stage/stage.ts";

export interface SpanShadeProps {
  readonly span: Span;
  readonly whole: Span;
  readonly stage: Stage;
  readonly clip: string;
  readonly onSpan?: ((span: Span | null) => void) | undefined;
}

const reach = 22;

export const SpanShade: Component<SpanShadeProps> = (props) => {
  const pixel = (edge: "from" | "to") => toPixel(props.stage.x(), props.span[edge]);
  const bottom = () => props.stage.size().height - axisHeight;
  return (
    <g class="span-shade">
      <g clip-path={props.clip}>
        <rect x={pixel("from")} y="0" width={Math.max(0, pixel("to") - pixel("from"))} height={bottom()} />
        <path d={`M${pixel("from")} 0V${bottom()}M${pixel("to")} 0V${bottom()}`} />
      </g>
      <Show when={props.onSpan}>
        {(onSpan) => (
          <For each={["from", "to"] as const}>
            {(edge) => {
              let start = props.span;
              const to = (time: number) => onSpan()(moveEdge(start, edge, time, props.whole));
              return (
                <Grip
                  areas={[edgeArea(pixel(edge), edge, bottom())]}
                  name={edge === "from" ? "Start of the span" : "End of the span"}
                  value={props.span[edge]}
                  valueText={formatTime(props.span[edge], props.stage.secondsPerPixel())}
                  min={props.whole.from}
                  max={props.whole.to}
                  along="x"
                  onGrab={() => {
                    start = props.span;
                  }}
                  onDrag={(pixels) => to(start[edge] + pixels * props.stage.secondsPerPixel())}
                  onStep={(direction, isLarge) => {
                    start = props.span;
                    to(start[edge] + direction * (isLarge ? 10 : 1) * props.stage.secondsPerPixel());
                  }}
                  onKey={(key) => {
                    if (key !== "Delete" && key !== "Backspace") return false;
                    onSpan()(null);
                    return true;
                  }}
                />
              );
            }}
          </For>
        )}
      </Show>
    </g>
  );
};

/** The edges never pass each other, nor the capture's ends. */
function moveEdge(span: Span, edge: "from" | "to", time: number, whole: Span): Span {
  const kept = Math.min(Math.max(time, whole.from), whole.to);
  return edge === "from"
    ? { from: Math.min(kept, span.to), to: span.to }
    : { from: span.from, to: Math.max(kept, span.from) };
}

function edgeArea(x: number, edge: "from" | "to", bottom: number) {
  const outwards = edge === "from" ? -1 : 1;
  const [a, b] = [x - outwards * 6, x + outwards * (2 * reach - 6)];
  return { left: Math.min(a, b), right: Math.max(a, b), top: bottom - 60, bottom };
}
