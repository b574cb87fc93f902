// The answer first, then what it rests on: lift-offs, readings, dimensions.

import type { Component } from "solid-js";
import { Answer } from "./Answer.tsx";
import { DimensionList } from "./DimensionList.tsx";
import { Findings } from "./Findings.tsx";
import { FlowSection } from "./FlowSection.tsx";
import { LiftOffList } from "./LiftOffList.tsx";
import { ReadingsInSpan } from "./ReadingsInSpan.tsx";
import { Warnings } from "./Warnings.tsx";

export const AnswerTab: Component = () => (
  <>
    <Warnings />
    <Answer />
    <LiftOffList />
    <Findings />
    <FlowSection />
    <ReadingsInSpan />
    <DimensionList />
  </>
);
