import { createServer, type IncomingMessage, type Server } from 'node:http';
import { createHash } from 'node:crypto';
import { isForOwnHost } from '#server/access/known-hosts.ts';
import { fingerprintRows } from '#shared/access/fingerprint.ts';
import { LANGUAGES, type Language } from '#shared/words/language.ts';

export interface TrustPageParts {
  /** PEM of the authority */
  readonly authority: () => string;
  readonly fingerprint: () => string;
  readonly securePort: () => number;
  readonly names: readonly string[];
}

/**
 * The only page that is served without encryption: it helps a tablet to trust this shop's authority. Everything else leads
 * to HTTPS.
 */
export function trustPage({ authority, fingerprint, securePort, names }: TrustPageParts): Server {
  return createServer((request, response) => {
    const { host } = request.headers;
    if (!isForOwnHost(request, names)) {
      response.writeHead(421).end();
      return;
    }
    // A path that begins with two slashes would name another host if both were read together.
    const { pathname, search } = new URL(`http://localhost${request.url ?? '/'}`);
    const secure = `https://${new URL(`http://${String(host)}`).hostname}:${String(securePort())}`;
    response.setHeader('X-Content-Type-Options', 'nosniff');
    response.setHeader('Cache-Control', 'no-store');
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      // What was sent here was sent in the clear: it is not passed on.
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
    } else if (pathname === '/authority.crt') {
      response
        .writeHead(200, {
          'Content-Type': 'application/x-x509-ca-cert',
          'Content-Disposition': 'attachment; filename="benchfold-authority.crt"',
        })
        .end(authority());
    } else if (pathname === '/') {
      const page = written(languageOf(request), secure, fingerprint());
      response
        .writeHead(200, { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': POLICY })
        .end(page);
    } else {
      response.writeHead(307, { Location: `${secure}${pathname}${search}` }).end();
    }
  });
}

function languageOf({ headers, url }: IncomingMessage): Language {
  const asked =
    new URL(`http://localhost${url ?? '/'}`).searchParams.get('language') ?? headers['accept-language'] ?? '';
  return LANGUAGES.find((each) => each === asked.slice(0, 2).toLowerCase()) ?? 'en';
}

interface TrustWords {
  readonly title: string;
  readonly why: string;
  readonly steps: readonly string[];
  readonly download: string;
  readonly compare: string;
  readonly goOn: string;
  readonly other: string;
  readonly remove: string;
}

const WORDS: Readonly<Record<Language, TrustWords>> = {
  en: {
    title: 'Let this tablet trust the packing station',
    why: 'The station speaks to tablets in secret. Once, this tablet must be told that the station is the right one; camera and microphone work only then.',
    steps: [
      'Fetch the certificate below. Nothing but this station can be vouched for with it.',
      'Compare the fingerprint below with the one on the server’s console, or on the office page Access of a device that trusts the station already, sign by sign. Different ones: stop.',
      'Open the file. Some tablets ask at once; on others: settings, security, certificates, install, authority (CA). On some, the profile must then be installed and trusted fully under general, about, certificates.',
      'On a computer: open the file and put it among the trusted root authorities; some browsers keep their own list under privacy and security, certificates.',
      'Open the station.',
    ],
    download: 'Fetch the certificate',
    compare: 'Fingerprint (SHA-256)',
    goOn: 'Open the station',
    other: 'Español',
    remove: 'A tablet that leaves the shop: remove the certificate there, and the device on the office page.',
  },
  es: {
    title: 'Que esta tableta confíe en la estación',
    why: 'La estación habla con las tabletas en secreto. Una vez hay que decirle a esta tableta que la estación es la correcta; solo entonces funcionan la cámara y el micrófono.',
    steps: [
      'Descargue el certificado de abajo. Con él no se puede avalar nada más que esta estación.',
      'Compare la huella de abajo con la de la consola del servidor, o con la de la página Acceso de la oficina en un aparato que ya confía en la estación, signo a signo. Si son distintas: no siga.',
      'Abra el archivo. Algunas tabletas preguntan enseguida; en otras: ajustes, seguridad, certificados, instalar, autoridad (CA). En algunas hay que instalar después el perfil y darle plena confianza en general, información, certificados.',
      'En un ordenador: abra el archivo y póngalo entre las autoridades raíz de confianza; algunos navegadores tienen su propia lista en privacidad y seguridad, certificados.',
      'Abra la estación.',
    ],
    download: 'Descargar el certificado',
    compare: 'Huella (SHA-256)',
    goOn: 'Abrir la estación',
    other: 'English',
    remove: 'Si una tableta deja la tienda: quite allí el certificado, y el aparato en la página de la oficina.',
  },
};

const STYLE = `
  :root { color-scheme: light dark; --paper: #FBF8F1; --ink: #1B2130; --go: #27346B; --on-go: #FBF8F1; --kraft: #E7DBC2; }
  @media (prefers-color-scheme: dark) { :root { --paper: #1B2130; --ink: #FBF8F1; --go: #B9C4F2; --on-go: #1B2130; --kraft: #2E3650; } }
  body { font: 20px/1.45 system-ui, sans-serif; background: var(--paper); color: var(--ink); max-width: 46rem; margin: 2rem auto; padding: 0 1.2rem; }
  h1 { font-size: 2rem; line-height: 1.15; } li { margin: .7rem 0; } p.last { border-top: 3px dashed currentColor; padding-top: 1rem; }
  a.button { display: inline-block; padding: 1rem 1.4rem; margin: .4rem .6rem .4rem 0; min-height: 64px; box-sizing: border-box; background: var(--go); color: var(--on-go); font-weight: 700; text-decoration: none; }
  a { color: var(--go); } code { display: block; background: var(--kraft); padding: .8rem 1rem; font-size: clamp(.7rem, 2.6vw, 1.2rem); }
  code span { display: block; }
`;
const POLICY = `default-src 'none'; style-src 'sha256-${createHash('sha256').update(STYLE).digest('base64')}'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'`;

/** Nothing on it comes from outside but the host, which was looked at. */
function written(language: Language, secure: string, fingerprint: string): string {
  const words = WORDS[language];
  const other = language === 'en' ? 'es' : 'en';
  return `<!doctype html>
<html lang="${language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${words.title}</title><style>${STYLE}</style></head><body><main>
<p><a href="/?language=${other}" lang="${other}">${words.other}</a></p>
<h1>${words.title}</h1>
<p>${words.why}</p>
<ol>${words.steps.map((step) => `<li>${step}</li>`).join('')}</ol>
<h2>${words.compare}</h2><code>${fingerprintRows(fingerprint)
    .map((row) => `<span>${row}</span>`)
    .join('')}</code>
<p><a class="button" href="/authority.crt" download>${words.download}</a><a class="button" href="${secure}/bench">${words.goOn}</a></p>
<p class="last">${words.remove}</p>
</main></body></html>
`;
}
