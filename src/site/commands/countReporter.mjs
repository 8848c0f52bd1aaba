import { writeFileSync } from 'node:fs';

/** A reporter that says nothing and writes how many tests passed and failed, as JSON, to $PLUMB_COUNT. */
export default class CountReporter {
  onTestRunEnd(modules) {
    let passed = 0;
    let failed = 0;
    for (const module of modules) {
      // A file that does not load has no tests to fail.
      if (module.errors().length > 0) failed++;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed++;
        if (state === 'failed') failed++;
      }
    }
    writeFileSync(process.env['PLUMB_COUNT'], JSON.stringify({ passed, failed }));
  }
}
