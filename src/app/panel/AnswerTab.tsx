// The answer first, then what it rests on: lift-offs, readings, dimensions.

import type { Component } from "solid-js";
import { Answer } from "../answer/Answer.tsx";
import { Findings } from "../answer/Findings.tsx";
import { FlowSection } from "../answer/FlowSection.tsx";
import { ReadingsInSpan } from "../answer/ReadingsInSpan.tsx";
import { Warnings } from "../answer/Warnings.tsx";
import { DimensionList } from "../dimensions/DimensionList.tsx";
import { HealthyChoice } from "../healthy/HealthyChoice.tsx";
import { LiftOffList } from "../lift-offs/LiftOffList.tsx";
import { EachLiftOff } from "../multiples/EachLiftOff.tsx";
import { PlaceList } from "../places/PlaceList.tsx";

export const AnswerTab: Component = () => (
  <>
    <Warnings />
    <Answer />
    <HealthyChoice />
    <LiftOffList />
    <EachLiftOff />
    <Findings />
    <FlowSection />
    <ReadingsInSpan />
    <DimensionList />
    <PlaceList />
  </>
);
