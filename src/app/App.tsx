// The whole page: an empty bench until a recording is open.

import type { Component } from "solid-js";

export const App: Component = () => <main>Tracewright</main>;
