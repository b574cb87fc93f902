// Runs one car of the second plant and keeps what a recorder may ask for.

import { Brick, type BrickSpec } from "./brick.ts";
import { Cell, type CellSpec } from "./cell.ts";
import type { Chance } from "./chance.ts";
import { chanceFrom } from "./chance.ts";
import { type Gas, joinAir, litresOfGram, oxygenOfAir, Plug, rawExhaust, Stirred } from "./gas.ts";
import { EngineModule, type ModuleSpec } from "./module.ts";
import { type CarBody, type Drive, Driver, type Moment } from "./road.ts";

export interface HoleSpec {
  /** Grams of air for each gram of the engine's at 3 g/s of engine air. */
  readonly share: number;
  /** g/s at which the pipe's mean pressure has risen to the height of its pulses: nothing comes in any more. */
  readonly closesAt: number;
}

export interface PlantSpec {
  readonly seed: number;
  readonly body: CarBody;
  readonly drive: Drive;
  readonly module: ModuleSpec;
  readonly brick: BrickSpec;
  readonly brickStartsAt: number;
  readonly brickWarms: number;
  readonly coolantFrom: number;
  readonly coolantTo: number;
  readonly front: CellSpec;
  readonly rear: CellSpec;
  /** Litres ahead of the front sensor, from there through the brick to the rear one; grams stirred together on the way. */
  readonly ahead: number;
  readonly behind: number;
  readonly stirred: number;
  readonly holeAhead: HoleSpec | null;
  readonly holeBetween: HoleSpec | null;
  /** Share of firings that fail. */
  readonly fails: number;
  /** Scatter of the mixture from cycle to cycle. */
  readonly scatter: number;
  /** What the air meter tells over what there is; s of its lag. */
  readonly meterGain: number;
  readonly meterLag: number;
}

export const tracks = [
  "front",
  "rear",
  "speed",
  "throttle",
  "road",
  "air",
  "load",
  "manifold",
  "coolant",
  "short",
  "long",
  "loop",
] as const;
export type Track = (typeof tracks)[number];

export interface Ride {
  readonly step: number;
  readonly count: number;
  readonly tracks: Readonly<Record<Track, Float32Array>>;
  /** Only the plant knows: excess into the brick, g held, 1 while cut, 1 while hot, foot on and steady. */
  readonly into: Float32Array;
  readonly held: Float32Array;
  readonly cut: Uint8Array;
  readonly hot: Uint8Array;
  /** Times at which the front fell through 0.45 V with the foot off. */
  readonly releasedFalls: readonly number[];
}

const step = 0.002;
const none = (): Gas => ({ oxygen: 0, reductant: 0, hydrogen: 0, unburnt: 0 });

export function ride(spec: PlantSpec): Ride {
  const chance = chanceFrom(spec.seed);
  const count = Math.round(spec.drive.seconds / step);
  const kept = Object.fromEntries(tracks.map((name) => [name, new Float32Array(count)])) as Record<Track, Float32Array>;
  const [into, held] = [new Float32Array(count), new Float32Array(count)];
  const [cut, hot] = [new Uint8Array(count), new Uint8Array(count)];
  const releasedFalls: number[] = [];
  const driver = new Driver(spec.body, spec.drive, chance.branch("road"), step);
  const module = new EngineModule(spec.module, step, spec.rear.idleVolts);
  const flow = new Flow(spec, chance);
  let [front, rear, air] = [spec.front.idleVolts, spec.rear.idleVolts, 0];
  for (let i = 0; i < count; i++) {
    const moment = driver.next();
    const drawn = moment.speed > 0 ? (spec.body.litres * moment.speed * 1.19 * moment.filling) / 120 : 0;
    const phi = module.fuel(moment, drawn, front, rear);
    const fell = front;
    [front, rear] = flow.step(moment, drawn, phi);
    if (fell > 0.45 && front <= 0.45 && moment.foot === "off" && moment.running) releasedFalls.push(i * step);
    air += (drawn * spec.meterGain - air) * (1 - Math.exp(-step / spec.meterLag));
    into[i] = flow.excessIn;
    held[i] = flow.brick.held;
    cut[i] = phi === 0 && moment.running ? 1 : 0;
    hot[i] = flow.brick.working(flow.celsius) > 0.9 ? 1 : 0;
    keep(kept, i, { moment, front, rear, air, module, spec });
  }
  return { step, count, tracks: kept, into, held, cut, hot, releasedFalls };
}

interface Heard {
  readonly moment: Moment;
  readonly front: number;
  readonly rear: number;
  readonly air: number;
  readonly module: EngineModule;
  readonly spec: PlantSpec;
}

function keep(kept: Record<Track, Float32Array>, i: number, { moment, front, rear, air, module, spec }: Heard): void {
  const isOut = moment.speed === 0;
  kept.front[i] = front;
  kept.rear[i] = rear;
  kept.speed[i] = moment.speed;
  kept.throttle[i] = moment.throttle;
  kept.road[i] = moment.road;
  kept.air[i] = air;
  kept.load[i] = isOut ? 0 : 100 * Math.min(1, moment.filling / 0.92);
  kept.manifold[i] = spec.body.plate === "none" ? 96 : isOut ? 101 : 101 * Math.min(1, moment.filling / 0.84);
  const warming = Math.min(1, (i * step) / 240);
  kept.coolant[i] = spec.coolantFrom + (spec.coolantTo - spec.coolantFrom) * warming;
  kept.short[i] = 100 * module.short;
  kept.long[i] = 100 * module.long;
  kept.loop[i] = module.loop;
}

/** From the injector to the rear sensor. */
class Flow {
  readonly brick: Brick;
  celsius: number;
  excessIn = 0;
  private readonly front: Cell;
  private readonly rear: Cell;
  private readonly ahead: Plug;
  private readonly behind: Plug;
  private readonly mixing: Stirred;
  private readonly fuels: Float32Array = new Float32Array(256).fill(1);
  private readonly raw = none();
  private readonly here = none();
  private readonly tail = none();
  private readonly holes: Chance;
  private readonly fires: Chance;
  private place = 0;
  private film = 1;
  private rough = 0;
  private phase = 0;
  private failsNow = 0;
  private gusts = 0;
  private seeped = 0;

  private readonly spec: PlantSpec;

  constructor(spec: PlantSpec, chance: Chance) {
    this.spec = spec;
    this.brick = new Brick(spec.brick);
    this.celsius = spec.brickStartsAt;
    this.front = new Cell(spec.front, step);
    this.rear = new Cell(spec.rear, step);
    this.ahead = new Plug(spec.ahead);
    this.behind = new Plug(spec.behind);
    this.mixing = new Stirred(spec.stirred);
    this.holes = chance.branch("holes");
    this.fires = chance.branch("fires");
  }

  step(moment: Moment, drawn: number, phi: number): [front: number, rear: number] {
    const { spec } = this;
    const kelvin = 680 + 380 * moment.filling;
    const grams = Math.max(drawn, 1e-4) * step;
    const litres = grams * litresOfGram(kelvin);
    this.heat(drawn, kelvin);
    const leaving = this.fired(moment, phi);
    const arriving = this.mixing.through(this.ahead.through(leaving, litres, this.here), grams);
    Object.assign(this.here, arriving);
    joinAir(this.here, this.drawnIn(spec.holeAhead, drawn, moment));
    this.seep(this.here, moment.running);
    this.excessIn = (this.here.oxygen - this.here.reductant - this.here.unburnt) / oxygenOfAir;
    const front = this.front.feel(this.here, moment.running);
    Object.assign(this.tail, this.here);
    if (drawn > 0.01) this.brick.pass(this.tail, grams, step, this.celsius);
    this.behind.through(this.tail, litres, this.here);
    joinAir(this.here, this.drawnIn(spec.holeBetween, drawn, moment));
    this.seep(this.here, moment.running);
    return [front, this.rear.feel(this.here, moment.running)];
  }

  private heat(drawn: number, kelvin: number): void {
    if (drawn > 0.3) this.celsius += (kelvin - 273 - this.celsius) * (1 - Math.exp(-step / this.spec.brickWarms));
  }

  /** Fuel from the injectors through the film on the walls, one and a half turns of two until it leaves the valves. */
  private fired(moment: Moment, phi: number): Gas {
    const { spec, fires } = this;
    this.film += ((phi > 0 ? phi : 1) - this.film) * (1 - Math.exp(-step / 0.25));
    this.fuels[this.place % 256] = phi > 0 ? 0.82 * phi + 0.18 * this.film : 0;
    const late = Math.min(250, Math.round(180 / Math.max(moment.speed, 600) / step));
    const fuel = this.fuels[Math.max(0, this.place - late) % 256]!;
    this.place++;
    this.rough += spec.scatter * fires.bell() * Math.sqrt(2 * step * 14) - this.rough * 14 * step;
    const gas = rawExhaust(1 - fuel * (1 + this.rough), this.raw);
    this.failing(gas, moment, fuel);
    return gas;
  }

  /** Two firings a turn; one that fails sends its air and its fuel on. */
  private failing(gas: Gas, { speed, running }: Moment, fuel: number): void {
    if (this.spec.fails === 0) return;
    this.phase += (speed / 30) * step;
    if (this.phase >= 1) {
      this.phase -= 1;
      this.failsNow = running && fuel > 0 && this.fires.happens(this.spec.fails) ? 1 : 0;
    }
    // One cylinder of four fills the pipe alone for about its own stroke.
    const share = 0.7 * this.failsNow;
    gas.oxygen += (oxygenOfAir - gas.oxygen) * share;
    gas.unburnt += oxygenOfAir * fuel * share;
  }

  /** Grams of air for each gram of gas: what comes through a hole while a pulse is below the air outside. */
  private drawnIn(hole: HoleSpec | null, drawn: number, { speed, running }: Moment): number {
    if (!hole || !running || drawn < 0.2) return 0;
    const rate = 2 * Math.PI * (speed / 30);
    this.gusts += 0.5 * this.holes.bell() * Math.sqrt(2 * step * 9) - this.gusts * 9 * step;
    // Pressure over its pulses: the mean rises with the square of the flow. Pulses run through faster than sensors follow.
    const mean = (drawn / hole.closesAt) ** 2;
    if (mean >= 1 || rate === 0) return 0;
    const below = Math.sqrt(1 - mean) - mean * Math.acos(Math.min(1, mean));
    return hole.share * (3 / drawn) * Math.max(0, below) * Math.max(0, 1 + this.gusts);
  }

  private seep(gas: Gas, isRunning: boolean): void {
    this.seeped += ((isRunning ? 0 : 1) - this.seeped) * (1 - Math.exp(-step / (isRunning ? 0.3 : 24)));
    if (!isRunning) joinAir(gas, this.seeped / Math.max(1e-3, 1 - this.seeped));
  }
}
