import { defineConfig } from 'vite';
import { serviceWorker } from './sw/plugin.ts';

export default defineConfig({
  plugins: [serviceWorker()],
  build: {
    outDir: '../dist/web',
    emptyOutDir: true,
    target: ['chrome100', 'safari15.4', 'firefox100'],
    // One style sheet, and scripts that are asked for together: a boat's Wi-Fi is slow at latency, and a page that is half
    // there warns of nothing.
    cssCodeSplit: false,
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
  },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  // `npx vite web` beside a running daemon.
  server: {
    proxy: {
      // Host stays as it was asked for: the daemon compares it with Origin.
      '/api': { target: 'http://127.0.0.1:8274', changeOrigin: false },
      '/live': { target: 'ws://127.0.0.1:8274', ws: true },
    },
  },
});
