// Imported first by every launcher: it must load on any Node that knows ES modules.

const WANTED = [20, 19];

/**
 * The sentence to print when this Node is too old, or null when it will do.
 * @param {string} version as in process.versions.node, such as '20.19.0'
 * @returns {string | null}
 */
export function nodeProblem(version) {
  const [major, minor] = version.split('.').map(Number);
  if (major > WANTED[0] || (major === WANTED[0] && minor >= WANTED[1])) return null;
  return (
    `Layfair needs Node.js ${WANTED.join('.')} or newer; this is Node.js ${version}. ` +
    'Install a newer Node.js and run the same command again.'
  );
}

const problem = nodeProblem(process.versions.node);
if (problem !== null) {
  console.error(problem);
  process.exit(1);
}
