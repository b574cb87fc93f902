// Line icons, drawn for this page on a 20 by 20 grid. All are decoration: the button beside them has a name.

import type { Component, JSX } from "solid-js";

const Icon: Component<{ readonly children: JSX.Element }> = (props) => (
  <svg
    width="20"
    height="20"
    viewBox="0 0 20 20"
    fill="none"
    stroke="currentColor"
    stroke-width="1.8"
    stroke-linecap="round"
    stroke-linejoin="round"
    aria-hidden="true"
  >
    {props.children}
  </svg>
);

export const CloseIcon: Component = () => (
  <Icon>
    <path d="M5 5L15 15M15 5L5 15" />
  </Icon>
);

export const UndoIcon: Component = () => (
  <Icon>
    <path d="M4 8H12.5A4 4 0 0 1 12.5 16H8M4 8L8 4M4 8L8 12" />
  </Icon>
);

export const RedoIcon: Component = () => (
  <Icon>
    <path d="M16 8H7.5A4 4 0 0 0 7.5 16H12M16 8L12 4M16 8L12 12" />
  </Icon>
);

export const MenuIcon: Component = () => (
  <Icon>
    <path d="M3 5H17M3 10H17M3 15H17" />
  </Icon>
);

/** A dimension between two upright extension lines. */
export const TimePairIcon: Component = () => (
  <Icon>
    <path d="M3 3V17M17 3V17M3 10H17M6.5 7.5L3 10L6.5 12.5M13.5 7.5L17 10L13.5 12.5" />
  </Icon>
);

export const LevelPairIcon: Component = () => (
  <Icon>
    <path d="M3 3H17M3 17H17M10 3V17M7.5 6.5L10 3L12.5 6.5M7.5 13.5L10 17L12.5 13.5" />
  </Icon>
);

export const SpanIcon: Component = () => (
  <Icon>
    <path d="M5 3V17M15 3V17M7.5 6H12.5M7.5 10H12.5M7.5 14H12.5" />
  </Icon>
);

/** The front falls, a little later the rear; the arrow says which way. */
export const PreviousLiftOffIcon: Component = () => (
  <Icon>
    <path d="M4 6L1 10L4 14" />
    <path d="M8 4H11L12 16H18" stroke-width="1.3" />
    <path d="M8 5H14L15.5 16" stroke-width="2.6" />
  </Icon>
);

export const NextLiftOffIcon: Component = () => (
  <Icon>
    <path d="M16 6L19 10L16 14" />
    <path d="M2 4H5L6 16H12" stroke-width="1.3" />
    <path d="M2 5H8L9.5 16" stroke-width="2.6" />
  </Icon>
);

export const PlusIcon: Component = () => (
  <Icon>
    <path d="M10 4V16M4 10H16" />
  </Icon>
);

export const MinusIcon: Component = () => (
  <Icon>
    <path d="M4 10H16" />
  </Icon>
);

export const BackIcon: Component = () => (
  <Icon>
    <path d="M16 10H4M9 5L4 10L9 15" />
  </Icon>
);

export const ForwardIcon: Component = () => (
  <Icon>
    <path d="M4 10H16M11 5L16 10L11 15" />
  </Icon>
);

/** A box drawn around a piece of a line. */
export const BoxIcon: Component = () => (
  <Icon>
    <path d="M3 5H17V15H3Z" stroke-dasharray="3 2.6" />
    <path d="M5 12L9 9L12 11L15 8" stroke-width="1.4" />
  </Icon>
);

/** Where a falling line meets a level. */
export const CrossingIcon: Component = () => (
  <Icon>
    <path d="M2 10H18" stroke-dasharray="2 2.4" stroke-width="1.4" />
    <path d="M4 4C9 4 11 16 16 16" />
    <circle cx="10" cy="10" r="2.6" fill="currentColor" stroke="none" />
  </Icon>
);

/** The top of a swing. */
export const ExtremeIcon: Component = () => (
  <Icon>
    <path d="M3 17C6 17 7 5 10 5C13 5 14 17 17 17" />
    <circle cx="10" cy="5" r="2.6" fill="currentColor" stroke="none" />
  </Icon>
);

export const BinIcon: Component = () => (
  <Icon>
    <path d="M3 6H17M8 6V3.5H12V6M5 6L6 17H14L15 6M8.5 9V14M11.5 9V14" />
  </Icon>
);
