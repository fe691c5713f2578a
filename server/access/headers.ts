import { isDataPath } from './data-path.ts';
import helmet from 'helmet';
import type { RequestHandler } from 'express';

const DIRECTIVES = {
  defaultSrc: ["'none'"],
  // The camera's decoder and the voice gate are WebAssembly; nothing else is made into code at run time.
  scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
  styleSrc: ["'self'"],
  // Lengths of drawings are written beside the element; they cannot run anything.
  styleSrcAttr: ["'unsafe-inline'"],
  imgSrc: ["'self'", 'data:', 'blob:'],
  mediaSrc: ["'self'", 'blob:'],
  fontSrc: ["'self'"],
  connectSrc: ["'self'"],
  workerSrc: ["'self'"],
  manifestSrc: ["'self'"],
  objectSrc: ["'none'"],
  baseUri: ["'none'"],
  formAction: ["'self'"],
  frameAncestors: ["'none'"],
} as const;

/** What a page may use of the tablet; all else is off. */
const PERMISSIONS = ['camera', 'microphone', 'hid', 'screen-wake-lock', 'autoplay', 'fullscreen'] as const;
const NEVER = ['geolocation', 'payment', 'usb', 'serial', 'midi', 'display-capture'] as const;

/**
 * What every answer tells the browser: no code but our own files (CSP Level 3), no frames, no guessing of types.
 * @param others where the shop's other servers are: a bench's page asks them when this one is gone
 */
export function strictHeaders(others: () => readonly string[] = () => []): readonly RequestHandler[] {
  const policy = [
    ...PERMISSIONS.map((feature) => `${feature}=(self)`),
    ...NEVER.map((feature) => `${feature}=()`),
  ].join(', ');
  let [made, madeFor] = [headersFor([]), ''];
  return [
    (request, response, next) => {
      const now = others();
      if (now.join(' ') !== madeFor) [made, madeFor] = [headersFor(now), now.join(' ')];
      made(request, response, next);
    },
    (request, response, next) => {
      response.setHeader('Permissions-Policy', policy);
      // Orders and addresses are not left lying in a browser's cache; a route that may be kept says so itself.
      if (isDataPath(request.path)) response.setHeader('Cache-Control', 'no-store');
      next();
    },
  ];
}

function headersFor(others: readonly string[]): RequestHandler {
  const directives = { ...DIRECTIVES, connectSrc: [...DIRECTIVES.connectSrc, ...others] };
  return helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: Object.fromEntries(Object.entries(directives).map(([name, sources]) => [name, [...sources]])),
    },
    frameguard: { action: 'deny' },
    referrerPolicy: { policy: 'same-origin' },
    // A browser would keep to HTTPS for a host's every port, and for `localhost` long after the shop is closed again.
    strictTransportSecurity: false,
  }) as RequestHandler;
}
