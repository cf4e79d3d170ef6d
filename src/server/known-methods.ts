interface Route {
  readonly method: string;
  readonly path: string;
}

/** Which methods an address takes, so that a wrong one is told apart from a wrong address. */
export function knownMethods(routes: readonly Route[], path: string): string[] {
  const methods = routes
    .filter((route) => route.method !== 'ALL' && matches(route.path, path))
    .map((route) => route.method);
  return [...new Set(methods)].sort();
}

function matches(pattern: string, path: string): boolean {
  const wanted = pattern.split('/');
  const given = path.split('/');
  return (
    wanted.length === given.length &&
    wanted.every((part, n) => (part.startsWith(':') ? given[n] !== '' : part === given[n]))
  );
}
