// How far a survey is, on standard error: a bar in a terminal, else a line now and then.

const width = 30;
/** Between two lines where there is no terminal, ms. */
const pace = 10_000;

export class Progress {
  readonly #total: number;
  readonly #begun = performance.now();
  readonly #isTerminal = process.stderr.isTTY === true;
  #done: number;
  readonly #before: number;
  #broken = 0;
  #told = performance.now();

  /** @param before  rows known already. */
  constructor(total: number, before: number) {
    this.#total = total;
    this.#before = before;
    this.#done = before;
    if (before > 0) process.stderr.write(`${before} of ${total} files were measured before.\n`);
  }

  step(isBroken: boolean): void {
    this.#done++;
    if (isBroken) this.#broken++;
    const now = performance.now();
    if (!this.#isTerminal && now - this.#told < pace) return;
    this.#told = now;
    process.stderr.write(this.#isTerminal ? `\r${this.#bar()} ${this.#words()}\u001b[K` : `${this.#words()}\n`);
  }

  end(): void {
    if (this.#isTerminal && this.#done > this.#before) process.stderr.write("\n");
  }

  #bar(): string {
    const full = Math.round((width * this.#done) / this.#total);
    return `[${"=".repeat(full)}${" ".repeat(width - full)}]`;
  }

  #words(): string {
    const each = (performance.now() - this.#begun) / (this.#done - this.#before);
    const left = Math.round((each * (this.#total - this.#done)) / 1000);
    const broken = this.#broken > 0 ? `, ${this.#broken} not read` : "";
    return `${this.#done} of ${this.#total} files${broken}, ${left > 90 ? `${Math.round(left / 60)} min` : `${left} s`} left`;
  }
}
