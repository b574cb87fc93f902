// How a subject offers its state to the screens: each has a context of its own, provided at the top of the page.

import { type Context, createContext, useContext } from "solid-js";

export interface Subject<T> {
  readonly Context: Context<T | undefined>;
  /** @throws TypeError outside the page that provides it: a bug. */
  readonly use: () => T;
}

export function subject<T>(name: string): Subject<T> {
  const Context = createContext<T>();
  const use = () => {
    const given = useContext(Context);
    if (given === undefined) throw new TypeError(`${name} is not provided here`);
    return given;
  };
  return { Context, use };
}
