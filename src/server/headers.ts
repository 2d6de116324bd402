/** Headers that every answer carries. Cross-origin isolation gives the page shared memory for live audio. */

const onEverything: Readonly<Record<string, string>> = {
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'microphone=(self), camera=(self), geolocation=(), payment=(), usb=()',
};

/**
 * The page runs only its own scripts and speaks only to its own server. WebAssembly reads FLAC and makes fingerprints;
 * drawings are SVG with style attributes; blobs are what the page itself made (templates, downloads, photographs).
 */
const pagePolicy = [
  // what is not named below is what the browser fetches ahead
  "default-src 'self'",
  "object-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self' blob:",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "frame-src 'self' blob:",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** A report is text and drawings: no script runs in it whatever a job says. */
const reportPolicy = [
  "default-src 'none'",
  "style-src 'unsafe-inline'",
  'img-src data:',
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'self'",
].join('; ');

export type Content = 'page' | 'report';

export const headersFor = (content: Content): Readonly<Record<string, string>> => ({
  ...onEverything,
  'Content-Security-Policy': content === 'page' ? pagePolicy : reportPolicy,
});
