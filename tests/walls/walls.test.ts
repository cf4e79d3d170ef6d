import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkWalls, type Tree } from './check-walls.ts';
import { root } from './project-files.ts';
import { rooms } from './rooms.ts';

function treeOf(...folders: readonly string[]): Tree {
  const tree: Record<string, string> = {};
  for (const folder of folders) {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) Object.assign(tree, treeOf(path));
      else if (/\.(ts|tsx|mjs|css|html)$/.test(entry.name)) {
        tree[path] = readFileSync(join(root, path), 'utf8');
      }
    }
  }
  return tree;
}

describe('the walls between the rooms', () => {
  const tree = treeOf('src', 'web', 'tests');

  it('are looked at: the tree holds code of the rooms', () => {
    expect(Object.keys(tree).filter((path) => path.startsWith('src/')).length).toBeGreaterThan(15);
  });

  it('stand', () => {
    expect(checkWalls(tree)).toEqual([]);
  });

  it('leave no way round: a room may import only rooms that stand before it', () => {
    const order = Object.keys(rooms);
    for (const [name, room] of Object.entries(rooms)) {
      for (const target of Object.keys(room.mayImport)) {
        expect(order.indexOf(target), `${name} imports ${target}`).toBeLessThan(
          order.indexOf(name),
        );
      }
    }
  });
});
