// What hides the trace behind a text that finds no free place in its lane.

import type { Component } from "solid-js";
import type { Box } from "../../drawing/boxes.ts";

export const Ground: Component<{ readonly box: Box }> = (props) => (
  <rect
    class="text-ground"
    x={props.box.left}
    y={props.box.top}
    width={props.box.right - props.box.left}
    height={props.box.bottom - props.box.top}
  />
);
