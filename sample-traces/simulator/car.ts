// What a simulated car is made of: plain numbers, drawn or written by hand.

import type { StretchKind } from "../../src/exhaust/terms/analysis.ts";

export interface CarSpec {
  /** For everything the car itself leaves to chance: idle shake, combustion scatter, misfires. */
  readonly seed: number;
  readonly drive: readonly Phase[];
  readonly engine: EngineSpec;
  readonly fuelling: FuellingSpec;
  readonly pipes: PipeSpec;
  readonly catalyst: CatalystSpec;
  readonly front: SensorSpec;
  readonly rear: SensorSpec;
  readonly leaks: LeakSpec;
  /** Share of firings that do not burn. */
  readonly misfire: number;
  /** Seconds in which air creeps up to the sensors while the engine stands (first order); absent: never. */
  readonly seep?: number;
}

/** One thing the driver does. Engine speed moves in a straight line to its target within `ramp` seconds. */
export interface Phase {
  readonly kind: StretchKind;
  readonly seconds: number;
  /** 1/min. */
  readonly engineSpeed: number;
  readonly ramp: number;
  /** Cylinder filling, 0..1: air drawn over the air that would fill the displacement. */
  readonly filling: number;
  /** %. */
  readonly throttle: number;
  /** km/h per 1/min; 0 stands still. */
  readonly gear: number;
  /** Lambda asked for while the loop is open under load, and until fuel is cut; absent: the loop may close. */
  readonly enrich?: number;
  /** The throttle is released and fuel may be cut. */
  readonly released?: boolean;
  /** The module has stopped the engine: no fuel, trims kept. */
  readonly stopped?: boolean;
}

export interface EngineSpec {
  /** Litres. */
  readonly displacement: number;
  /** degC at the start. */
  readonly coolantStart: number;
  /** degC per second while running below 88 degC. */
  readonly coolantRise: number;
  /** Exhaust gas, K, at no filling, and how much a full filling adds. */
  readonly exhaustBase: number;
  readonly exhaustRise: number;
  /** 1/min. */
  readonly speedScatter: number;
  /** Seconds that the throttle takes to follow the foot (first order); absent: 0.06, a cable. */
  readonly throttleLag?: number;
  /** Air is metered by the valves; the manifold stays near the air outside. */
  readonly unthrottled?: boolean;
}

export interface FuellingSpec {
  /** Step of the fuel correction when the front sensor crosses 0.45 V, share of the fuel. */
  readonly step: number;
  /** Ramp of the correction, share of the fuel per second. */
  readonly rampRate: number;
  /** The largest correction, share of the fuel: what the short trim may reach. */
  readonly authority: number;
  /** Fuel delivered over fuel asked for, minus 1. */
  readonly error: number;
  /** Long trim learned before, share of the fuel. */
  readonly longTrim: number;
  /** Volts that the slow rear loop aims at; null: there is none. */
  readonly rearTarget: number | null;
  /** Seconds from release of the throttle to the cut, and 1/min at which fuel returns. */
  readonly cutDelay: number;
  readonly cutEnds: number;
  /** Scatter of the mixture from firing to firing, share of the fuel. */
  readonly scatter: number;
}

export interface PipeSpec {
  /** Litres from the valves to the front sensor, and from there through the brick to the rear sensor. */
  readonly ahead: number;
  readonly behind: number;
  /** First-order mixing on the way to the front sensor, s. */
  readonly mixing: number;
}

export interface CatalystSpec {
  /** Grams of oxygen the hot catalyst can hold. */
  readonly capacity: number;
  /** Share of any excess or lack that passes whatever is stored. */
  readonly slip: number;
  /** Air flow, g/s, at which 37 % more passes for want of time in the brick: exp(-reach/flow). */
  readonly reach: number;
  /** How sharply it lets go when nearly full or empty: exponent of the filling. */
  readonly sharpness: number;
  /** How much too rich the rear sensor reads behind the empty store: hydrogen made in the catalyst, as an excess. */
  readonly hydrogen: number;
  /** degC at the start, seconds to follow the gas, degC at which half of it works. */
  readonly startTemperature: number;
  readonly warmUp: number;
  readonly lightOff: number;
}

export interface SensorSpec {
  /** Element temperature, degC: at the start, at the end; seconds (first order). */
  readonly coldTemperature: number;
  readonly hotTemperature: number;
  readonly warmUp: number;
  /** degC at which the cell's and the module's share of the reading are equal. */
  readonly wakeTemperature: number;
  /** V that the module shows while the element is asleep. */
  readonly bias: number;
  /** First-order lag, s, falling and rising. */
  readonly richToLean: number;
  readonly leanToRich: number;
  /** V at an excess of -0.01. */
  readonly richLevel: number;
  /** Half-width of the step and its centre, in excess (1 - 1/lambda). */
  readonly width: number;
  readonly shift: number;
}

export interface LeakSpec {
  /** Outside air drawn in, g/s: ahead of the front sensor, and between front and rear. */
  readonly ahead: number;
  readonly between: number;
  /** How the one between pulses; absent: it draws evenly. */
  readonly pulses?: LeakPulses;
}

export interface LeakPulses {
  /** g/s of engine air from which the pipe's pressure lets nothing in any more; in between a straight line. */
  readonly fadesAt: number;
  /** Scatter of what is drawn, share of its mean. */
  readonly scatter: number;
}
