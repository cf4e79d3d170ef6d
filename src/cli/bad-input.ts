/** Bad input: said in sentences, exit code 2, nothing written. */
export class BadInput extends Error {
  readonly issues: readonly { readonly path: string; readonly message: string }[];

  constructor(issues: readonly { readonly path: string; readonly message: string }[]) {
    super(issues.map((issue) => issue.message).join('\n'));
    this.issues = issues;
  }
}

export function badInput(path: string, message: string): BadInput {
  return new BadInput([{ path, message }]);
}
