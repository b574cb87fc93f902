// Names for plain numbers, so that a signature says what it takes.

export type Seconds = number;
export type Hertz = number;
export type Volts = number;
