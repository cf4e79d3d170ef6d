import { defineConfig } from 'vite';

export default defineConfig({
  root: import.meta.dirname,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: { outDir: '../dist/web', emptyOutDir: true, target: 'es2022', sourcemap: false },
});
