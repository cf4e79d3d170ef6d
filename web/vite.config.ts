import { resolve } from 'node:path';
import { defineConfig, normalizePath } from 'vite';

/** The rooms are pure: of their indexes a page gets what it uses, and no schema library with it. */
const rooms = `${normalizePath(resolve(import.meta.dirname, '..', 'src'))}/`;

export default defineConfig({
  root: import.meta.dirname,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    sourcemap: false,
    rolldownOptions: {
      treeshake: { moduleSideEffects: (id) => !normalizePath(id).startsWith(rooms) },
    },
  },
});
