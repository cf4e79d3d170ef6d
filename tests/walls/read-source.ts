import { parseAst } from 'vite';

export interface Import {
  readonly from: string;
  /** True when nothing of it is left at run time. */
  readonly typesOnly: boolean;
  /** What is left at run time, as the other file calls it; '*' for the whole. */
  readonly values: readonly string[];
  readonly line: number;
}

export interface Use {
  /** As written, such as `Date.now`. */
  readonly what: string;
  readonly line: number;
}

export interface Source {
  readonly imports: readonly Import[];
  /** Uses of the names that reach outside: the clock, chance, the process, the console. */
  readonly uses: readonly Use[];
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

/** Reads one file with the parser that also builds the pages, so that comments, strings and markup cannot mislead. */
export function readSource(path: string, text: string): Source {
  const lang = path.endsWith('.tsx') ? 'tsx' : path.endsWith('.ts') ? 'ts' : 'js';
  const imports: Import[] = [];
  const uses: Use[] = [];
  const lineOf = (node: Node): number => text.slice(0, node.start).split('\n').length;
  walk(parseAst(text, { lang }) as unknown as Node, (node) => {
    const found = importOf(node);
    if (found !== null) imports.push({ ...found, line: lineOf(node) });
    const what = useOf(node);
    if (what !== null) uses.push({ what, line: lineOf(node) });
  });
  return { imports, uses };
}

function walk(node: Node, visit: (node: Node) => void): void {
  visit(node);
  for (const [key, value] of Object.entries(node)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (isNode(child) && !isOnlyAName(node, key, child)) walk(child, visit);
    }
  }
}

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && typeof (value as Node).type === 'string';
}

/** Places where an identifier names a property, a label or a type, and so reads no variable. */
function isOnlyAName(node: Node, key: string, child: Node): boolean {
  if (node.type === 'TSTypeReference') return key === 'typeName';
  if (node.type === 'TSTypeQuery') return key === 'exprName' && child.type !== 'TSImportType';
  if (node.type === 'ImportSpecifier' || node.type === 'ExportSpecifier') return true;
  if (node['computed'] === true) return false;
  if (node.type === 'MemberExpression') return key === 'property';
  if (node.type === 'Property') return key === 'key' && node['shorthand'] !== true;
  return key === 'key';
}

function importOf(node: Node): Omit<Import, 'line'> | null {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportNamedDeclaration':
      return declared(node);
    case 'ExportAllDeclaration':
      return whole(node['source'], node['exportKind'] === 'type');
    case 'ImportExpression':
      return whole(node['source']);
    case 'TSImportType':
      return whole(node['source'] ?? node['argument'], true);
    case 'TSExternalModuleReference':
      return whole(node['expression']);
    case 'CallExpression':
      if (nameOf(node['callee']) !== 'require') return null;
      return whole((node['arguments'] as readonly unknown[])[0]);
    default:
      return null;
  }
}

function whole(from: unknown, typesOnly = false): Omit<Import, 'line'> {
  return { from: textOf(from), typesOnly, values: typesOnly ? [] : ['*'] };
}

function declared(node: Node): Omit<Import, 'line'> | null {
  if (!isNode(node['source'])) return null;
  if (node['importKind'] === 'type' || node['exportKind'] === 'type')
    return whole(node['source'], true);
  const specifiers = node['specifiers'] as readonly Node[];
  if (specifiers.length === 0) return whole(node['source']);
  const values = specifiers
    .filter((part) => (part['importKind'] ?? part['exportKind']) !== 'type')
    .map((part) => takenName(part));
  return { from: textOf(node['source']), typesOnly: values.length === 0, values };
}

function takenName(specifier: Node): string {
  if (specifier.type === 'ImportSpecifier') return nameOf(specifier['imported']) ?? '*';
  if (specifier.type === 'ExportSpecifier') return nameOf(specifier['local']) ?? '*';
  return specifier.type === 'ImportDefaultSpecifier' ? 'default' : '*';
}

/** The text of a string literal; '' for anything that is only known at run time. */
function textOf(node: unknown): string {
  if (!isNode(node)) return '';
  if (node.type === 'TSLiteralType') return textOf(node['literal']);
  return node.type === 'Literal' && typeof node['value'] === 'string' ? node['value'] : '';
}

function nameOf(node: unknown): string | null {
  return isNode(node) && node.type === 'Identifier' ? String(node['name']) : null;
}

const WORLD = [
  'Date',
  'Math',
  'performance',
  'process',
  'crypto',
  'console',
  'DateTime',
  'Settings',
];
/** These may not be passed around either: what is done with them then could not be seen here. */
const NEVER_ALONE = ['Date', 'Math'];

function useOf(node: Node): string | null {
  if (node.type === 'MemberExpression') {
    const object = worldNameOf(node['object']);
    if (object === null) return null;
    const property = node['computed'] ? textOf(node['property']) : nameOf(node['property']);
    return `${object}.${property || '?'}`;
  }
  if (node.type === 'NewExpression' && worldNameOf(node['callee']) === 'Date') {
    const given = Array.isArray(node['arguments']) && node['arguments'].length > 0;
    return given ? 'new Date of an instant' : 'new Date';
  }
  if (node.type === 'CallExpression') {
    if (worldNameOf(node['callee']) === 'Date') return 'Date()';
    return isDateTimeOfNow(node) ? 'DateTime.now, as local or utc of nothing' : null;
  }
  if (node.type === 'VariableDeclarator' || node.type === 'AssignmentExpression') {
    const value = worldNameOf(node['init'] ?? node['right']);
    return value !== null && NEVER_ALONE.includes(value) ? `${value}, taken whole` : null;
  }
  return null;
}

function isDateTimeOfNow(call: Node): boolean {
  const callee = call['callee'];
  if (!isNode(callee) || worldNameOf(callee['object']) !== 'DateTime') return false;
  const [first] = call['arguments'] as readonly unknown[];
  const readsNow = !isNode(first) || first.type === 'ObjectExpression';
  return readsNow && ['local', 'utc'].includes(nameOf(callee['property']) ?? '');
}

/** Also sees through `globalThis.` and `window.`. */
function worldNameOf(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (
    node.type === 'MemberExpression' &&
    ['globalThis', 'window'].includes(nameOf(node['object']) ?? '')
  ) {
    return worldNameOf(node['property']);
  }
  const name = nameOf(node);
  return name !== null && WORLD.includes(name) ? name : null;
}
