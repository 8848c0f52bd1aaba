/**
 * What a page may load: its own files and nothing else; pictures also from memory. No inline style or script anywhere.
 * It stands in the built pages only, since the development server uses inline styles.
 */
export const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
