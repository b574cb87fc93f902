// Vitest's own reporter, and after each file how many of them are done.

import { DefaultReporter, type TestModule, type TestSpecification } from "vitest/node";

export default class Progress extends DefaultReporter {
  private files = 0;
  private done = 0;

  override onTestRunStart(specifications: readonly TestSpecification[]): void {
    super.onTestRunStart(specifications);
    this.files = specifications.length;
  }

  override onTestModuleEnd(testModule: TestModule): void {
    super.onTestModuleEnd(testModule);
    this.log(`${++this.done} of ${this.files} test files`);
  }
}
