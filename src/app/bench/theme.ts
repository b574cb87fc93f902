// Light or dark: as the system has it, or as the user chose, kept in the browser.

import { type Accessor, createEffect, createSignal, onCleanup } from "solid-js";
import { subject } from "../core/context.ts";

export type ThemeChoice = "system" | "light" | "dark";
export type Theme = "light" | "dark";

const place = "tracewright-theme";

export interface ThemeState {
  readonly choice: Accessor<ThemeChoice>;
  readonly theme: Accessor<Theme>;
  choose(choice: ThemeChoice): void;
}

export const { Context: ThemeContext, use: useTheme } = subject<ThemeState>("The theme");

export function createTheme(): ThemeState {
  const system = matchMedia("(prefers-color-scheme: dark)");
  const [systemIsDark, setSystemIsDark] = createSignal(system.matches);
  const follow = (event: MediaQueryListEvent) => setSystemIsDark(event.matches);
  system.addEventListener("change", follow);
  onCleanup(() => system.removeEventListener("change", follow));

  const [choice, setChoice] = createSignal<ThemeChoice>(keptChoice());
  const theme = (): Theme => {
    const chosen = choice();
    if (chosen !== "system") return chosen;
    return systemIsDark() ? "dark" : "light";
  };
  createEffect(() => {
    document.documentElement.dataset.theme = theme();
  });
  return {
    choice,
    theme,
    choose(chosen) {
      setChoice(chosen);
      keepChoice(chosen);
    },
  };
}

function keptChoice(): ThemeChoice {
  try {
    const kept = localStorage.getItem(place);
    return kept === "light" || kept === "dark" ? kept : "system";
  } catch {
    return "system"; // storage is denied: the choice lasts as long as the page
  }
}

function keepChoice(choice: ThemeChoice): void {
  try {
    localStorage.setItem(place, choice);
  } catch {
    // storage is denied: the choice lasts as long as the page
  }
}
