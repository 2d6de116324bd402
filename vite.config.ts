import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';

/** The browser fetches the rest of the page when it has nothing else to do: a station opened while the server is away is there then, and a side can be read. */
function fetchedAhead(): Plugin {
  return {
    name: 'fetched-ahead',
    enforce: 'post',
    generateBundle(_, bundle) {
      const page = bundle['index.html'];
      if (page?.type !== 'asset') throw new Error('the page’s index.html is not in its bundle');
      const html = page.source.toString();
      const rest = Object.keys(bundle).filter((name) => /\.(js|css)$/.test(name) && !html.includes(name));
      const links = rest.map((name) => `    <link rel="prefetch" href="/${name}">\n`);
      page.source = html.replace('  </head>', `${links.join('')}  </head>`);
    },
  };
}

/** The page: built from src/web into dist/web, served by `platterside serve`. In `npx vite` the API is passed on to a running server. */
export default defineConfig({
  root: fileURLToPath(new URL('./src/web', import.meta.url)),
  base: '/',
  publicDir: false,
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  plugins: [fetchedAhead()],
  build: {
    outDir: fileURLToPath(new URL('./dist/web', import.meta.url)),
    emptyOutDir: true,
    target: 'es2022',
    sourcemap: true,
    // a font inlined as data: would need a wider content policy than the server allows
    assetsInlineLimit: 0,
    // how long a plug-in took is nothing to who starts the page
    rolldownOptions: {
      checks: { pluginTimings: false },
      // schemas and what they are told (noEval.ts) in one piece, so that it is told before the first of them is made
      output: { codeSplitting: { groups: [{ name: 'schemas', test: /node_modules.zod|noEval/ }] } },
    },
  },
  server: {
    fs: { allow: [fileURLToPath(new URL('.', import.meta.url))] },
    proxy: {
      '/api': {
        target: process.env.PLATTERSIDE_API ?? 'http://127.0.0.1:4133',
        // what lies in the store's key file: a page of this server has no cookie of the other one
        headers: process.env.PLATTERSIDE_KEY ? { authorization: `Bearer ${process.env.PLATTERSIDE_KEY}` } : {},
      },
    },
  },
});
