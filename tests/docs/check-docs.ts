export interface Offers {
  readonly commands: readonly string[];
  readonly flags: readonly string[];
  readonly settings: readonly string[];
}

type Texts = Readonly<Record<string, string>>;

/** Set by the system, by npm or by the test runner, not by a person who uses Layfair. */
const NOT_OURS = /^(npm_.*|INIT_CWD|HOME|PATH|TMPDIR|LD_LIBRARY_PATH|NODE_ENV|VITEST.*)$/;

/**
 * What the code offers to a person: the commands and flags that src/cli declares, and the environment
 * variables that any code reads.
 */
export function offersOf(code: Texts): Offers {
  const commands = new Set<string>();
  const flags = new Set<string>();
  const settings = new Set<string>();
  for (const [path, text] of Object.entries(code)) {
    for (const name of settingsIn(text)) settings.add(name);
    if (!path.startsWith('src/cli/')) continue;
    for (const [, name] of text.matchAll(/\.command\(\s*['"`]([a-z][a-z-]*)/g)) commands.add(name!);
    for (const [, declared] of text.matchAll(
      /(?:[oO]ption|new Option)\(\s*['"`]([^'"`]*--[a-z][^'"`]*)['"`]/g,
    )) {
      for (const [flag] of declared!.matchAll(/--[a-z][a-z-]*/g)) flags.add(flag);
    }
  }
  return { commands: [...commands], flags: [...flags], settings: [...settings] };
}

function settingsIn(text: string): string[] {
  const found = [
    ...text.matchAll(/\benv\[\s*['"`]([A-Za-z_][A-Za-z0-9_]*)['"`]\s*\]/g),
    ...text.matchAll(/\benv\.([A-Z][A-Z0-9_]*)\b/g),
    ...text.matchAll(/\b(LAYFAIR_[A-Z0-9_]*[A-Z0-9])\b/g),
  ];
  return found.map((match) => match[1]!).filter((name) => !NOT_OURS.test(name));
}

/** What the code offers and no page of the docs names, a sentence each. */
export function undocumented(offers: Offers, docs: Texts): string[] {
  const all = Object.values(docs).join('\n');
  const names = (word: RegExp): boolean => word.test(all);
  return [
    ...offers.commands
      .filter((command) => !names(new RegExp(`layfair (-- )?${command}\\b`)))
      .map(
        (command) =>
          `the command '${command}' is in no page of the docs ('layfair ${command} ...')`,
      ),
    ...offers.flags
      .filter((flag) => !names(new RegExp(`(?<![\\w-])${flag}(?![\\w-])`)))
      .map((flag) => `the flag ${flag} is in no page of the docs`),
    ...offers.settings
      .filter((setting) => !names(new RegExp(`(?<!\\w)${setting}(?!\\w)`)))
      .map((setting) => `the environment variable ${setting} is in no page of the docs`),
  ];
}

/** What the docs promise and the project does not have, a sentence each. */
export function unkept(
  docs: Texts,
  offers: Offers,
  scripts: readonly string[],
  exists: (path: string) => boolean,
): string[] {
  const problems: string[] = [];
  for (const [page, text] of Object.entries(docs)) {
    for (const [, setting] of text.matchAll(/(?<!\w)(LAYFAIR_[A-Z0-9_]*[A-Z0-9])(?!\w)/g)) {
      if (!offers.settings.includes(setting!)) problems.push(`${page}: nothing reads ${setting}`);
    }
    for (const [, command] of text.matchAll(
      /npm run (?:-s |--silent )?layfair -- ([a-z][a-z-]*)/g,
    )) {
      if (!offers.commands.includes(command!)) problems.push(`${page}: no command '${command}'`);
    }
    for (const [, script] of text.matchAll(/npm run (?:-s |--silent )?([a-z][a-z:-]*)/g)) {
      if (!scripts.includes(script!))
        problems.push(`${page}: no script '${script}' in package.json`);
    }
    for (const [, target] of text.matchAll(/\]\(([^)\s#]+)(?:#[^)]*)?\)/g)) {
      if (/^[a-z]+:/.test(target!)) continue;
      const folder = page.includes('/') ? page.slice(0, page.lastIndexOf('/') + 1) : '';
      if (!exists(folder + target!)) problems.push(`${page}: the link to ${target} leads nowhere`);
    }
  }
  return problems;
}
