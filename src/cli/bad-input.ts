export interface InputIssue {
  readonly path: string;
  readonly message: string;
}

/** What stops a command short of an answer: said in sentences on stderr, nothing written. */
export class Stopped extends Error {
  readonly code: string;
  readonly issues: readonly InputIssue[];

  constructor(code: string, issues: readonly InputIssue[]) {
    super(issues.map((issue) => issue.message).join('\n'));
    this.code = code;
    this.issues = issues;
  }
}

/** What was given is wrong: exit code 2. */
export class BadInput extends Stopped {
  constructor(issues: readonly InputIssue[]) {
    super('bad-input', issues);
  }
}

/** What was given is right, but there is no current forecast to answer from: exit code 1. */
export class NoForecast extends Stopped {
  constructor(why: string) {
    super('no-forecast', [{ path: 'weather', message: why }]);
  }
}

/** Ctrl-C before there was anything to tell: exit code 1. */
export class Interrupted extends Stopped {
  constructor() {
    super('stopped', [{ path: '', message: 'Stopped before the search had found anything.' }]);
  }
}

export function badInput(path: string, message: string): BadInput {
  return new BadInput([{ path, message }]);
}
