// Starts the page.

import { render } from "solid-js/web";
import { App } from "./App.tsx";

render(() => <App />, document.getElementById("app")!);
