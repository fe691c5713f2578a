import type { PinProblem } from '#shared/access/pin.ts';
import type { Role } from '#shared/access/roles.ts';
import type { Language } from '#shared/words/language.ts';

/** What is said about coming in: at the bench, at the office, and on the office's page of rights. */
export interface AccessWords {
  readonly roles: Readonly<Record<Role, string>>;
  readonly page: string;
  readonly unlocked: string;
  readonly unlockedHow: string;
  readonly setOwnerPin: string;
  readonly signIn: string;
  readonly signOut: string;
  readonly who: string;
  readonly pin: string;
  readonly pinAgain: string;
  readonly pinsDiffer: string;
  readonly ownerRule: string;
  readonly code: string;
  readonly setUpCode: string;
  readonly notPaired: string;
  readonly notPairedHow: string;
  readonly deviceName: string;
  readonly pair: string;
  readonly nobodyHasPin: string;
  readonly packerHere: string;
  readonly wrong: string;
  readonly wait: (seconds: number) => string;
  readonly busy: string;
  readonly noServer: string;
  readonly problems: Readonly<Record<PinProblem, string>>;
  readonly scanBadge: string;
  readonly orPin: string;
  readonly pinOf: (name: string) => string;
  readonly digit: (digit: string) => string;
  readonly takeBack: string;
  readonly done: string;
  readonly others: string;
  readonly entered: (digits: number) => string;
  readonly people: string;
  readonly role: string;
  readonly hasPin: string;
  readonly badgeOnly: string;
  readonly setPinFor: (name: string) => string;
  readonly changePin: string;
  readonly setPin: string;
  readonly takePin: string;
  readonly keep: string;
  readonly store: string;
  readonly peopleHow: string;
  readonly devices: string;
  readonly devicesHow: string;
  readonly noDevices: string;
  readonly device: string;
  readonly pairedAt: string;
  readonly seenAt: string;
  readonly thisOne: string;
  readonly revoke: string;
  readonly revokeFor: (name: string) => string;
  readonly reallyRevoke: (name: string) => string;
  readonly pairOne: string;
  readonly codeIs: string;
  readonly codeHow: string;
  readonly trustFirst: (page: string) => string;
  readonly trustNoNetwork: string;
  readonly fingerprint: string;
  readonly fingerprintHow: string;
  readonly lockFirst: string;
  readonly tablet: (bench: string) => string;
}

const en: AccessWords = {
  roles: { packer: 'packer', supervisor: 'supervisor', owner: 'owner' },
  page: 'Access',
  unlocked: 'This shop is not locked yet.',
  unlockedHow: 'Whoever sits at this computer is the owner.',
  setOwnerPin: 'Set the owner’s PIN',
  signIn: 'Sign in',
  signOut: 'Sign out',
  who: 'Who are you',
  pin: 'PIN',
  pinAgain: 'The same PIN again',
  pinsDiffer: 'The two are not the same.',
  ownerRule: 'An owner’s PIN has 6 to 12 digits. If it is forgotten, the server’s own computer can make a new code.',
  code: 'Code',
  setUpCode: 'Code on the server’s console',
  notPaired: 'Pair this device',
  notPairedHow: 'Enter the code that the office page Access shows, or the server’s console.',
  deviceName: 'A name for this device',
  pair: 'Pair',
  nobodyHasPin: 'Nobody has a PIN yet.',
  packerHere: 'The office is for supervisors and owners.',
  wrong: 'That is not right. Try again.',
  wait: (seconds) =>
    `Too many wrong tries: wait ${seconds < 100 ? `${String(seconds)} s` : `${String(Math.ceil(seconds / 60))} min`}.`,
  busy: 'Too many sign in at this moment. Try again.',
  noServer: 'The server does not answer.',
  problems: {
    'not-digits': 'A PIN is made of digits only.',
    'too-short': 'Too short: 4 digits or more, for an owner 6 or more.',
    'too-long': 'Too long: 12 digits at most.',
    'too-plain': 'Too easy to guess: not 1234, not 1111.',
  },
  scanBadge: 'Scan your badge',
  orPin: 'or touch your name and enter your PIN',
  pinOf: (name) => `${name}: enter your PIN`,
  digit: (digit) => `digit ${digit}`,
  takeBack: 'take back',
  done: 'done',
  others: 'somebody else',
  entered: (digits) => `${String(digits)} ${digits === 1 ? 'digit' : 'digits'} entered`,
  people: 'People',
  role: 'Role',
  hasPin: 'badge and PIN',
  badgeOnly: 'badge only',
  setPinFor: (name) => `PIN for ${name}`,
  changePin: 'change PIN',
  setPin: 'set PIN',
  takePin: 'take PIN away',
  keep: 'Keep',
  store: 'Store',
  peopleHow:
    'A badge opens a paired bench. The office asks for a PIN. Packers pack; supervisors also see to orders and devices; what is about money, prices and people is the owner’s. Names, badges and roles stand in staff.yaml.',
  devices: 'Paired devices',
  devicesHow: 'A tablet or an office is paired once. One that is lost or leaves the shop: revoke it.',
  noDevices: 'No device is paired yet.',
  device: 'Device',
  pairedAt: 'Paired',
  seenAt: 'Last seen',
  thisOne: 'this one',
  revoke: 'Revoke',
  revokeFor: (name) => `Revoke ${name}`,
  reallyRevoke: (name) => `${name} is shut out at once. Revoke?`,
  pairOne: 'Pair a tablet',
  codeIs: 'Enter this on the tablet, within ten minutes:',
  codeHow: 'It pairs one device.',
  trustFirst: (page) => `A new tablet first learns to trust the station: open ${page} there.`,
  trustNoNetwork: 'The server’s computer is in no network: no tablet can reach it.',
  fingerprint: 'Fingerprint (SHA-256)',
  fingerprintHow: 'The tablet shows one too. Compare them sign by sign; if they differ, stop: it is not this station.',
  lockFirst:
    'With the owner’s PIN the shop is locked: then everybody signs in, by badge or PIN, at devices that were paired.',
  tablet: (bench) => `Tablet of ${bench}`,
};

const es: AccessWords = {
  roles: { packer: 'empaque', supervisor: 'encargo', owner: 'propiedad' },
  page: 'Acceso',
  unlocked: 'Esta tienda aún no está cerrada con llave.',
  unlockedHow: 'Quien se sienta ante este ordenador manda en todo.',
  setOwnerPin: 'Poner el PIN de la propiedad',
  signIn: 'Entrar',
  signOut: 'Salir',
  who: 'Quién es usted',
  pin: 'PIN',
  pinAgain: 'El mismo PIN otra vez',
  pinsDiffer: 'Los dos no son iguales.',
  ownerRule:
    'El PIN de la propiedad tiene de 6 a 12 cifras. Si se olvida, el ordenador del servidor puede dar un código nuevo.',
  code: 'Código',
  setUpCode: 'Código de la consola del servidor',
  notPaired: 'Empareje este aparato',
  notPairedHow: 'Dé el código que muestra la página Acceso de la oficina, o la consola del servidor.',
  deviceName: 'Un nombre para este aparato',
  pair: 'Emparejar',
  nobodyHasPin: 'Nadie tiene PIN todavía.',
  packerHere: 'La oficina es de quienes tienen un encargo o la propiedad.',
  wrong: 'No es correcto. Pruebe otra vez.',
  wait: (seconds) =>
    `Demasiados intentos: espere ${seconds < 100 ? `${String(seconds)} s` : `${String(Math.ceil(seconds / 60))} min`}.`,
  busy: 'Demasiadas personas entran ahora. Pruebe otra vez.',
  noServer: 'El servidor no responde.',
  problems: {
    'not-digits': 'Un PIN se compone solo de cifras.',
    'too-short': 'Demasiado corto: al menos 4 cifras, para la propiedad 6.',
    'too-long': 'Demasiado largo: 12 cifras como mucho.',
    'too-plain': 'Demasiado fácil: ni 1234 ni 1111.',
  },
  scanBadge: 'Lee tu tarjeta',
  orPin: 'o toca tu nombre y da tu PIN',
  pinOf: (name) => `${name}: da tu PIN`,
  digit: (digit) => `cifra ${digit}`,
  takeBack: 'borrar',
  done: 'listo',
  others: 'otra persona',
  entered: (digits) => `${String(digits)} ${digits === 1 ? 'cifra dada' : 'cifras dadas'}`,
  people: 'Personas',
  role: 'Función',
  hasPin: 'tarjeta y PIN',
  badgeOnly: 'solo tarjeta',
  setPinFor: (name) => `PIN de ${name}`,
  changePin: 'cambiar el PIN',
  setPin: 'poner un PIN',
  takePin: 'quitar el PIN',
  keep: 'Conservar',
  store: 'Guardar',
  peopleHow:
    'Una tarjeta abre una mesa emparejada. La oficina pide un PIN. El empaque empaca; el encargo atiende también pedidos y aparatos; dinero, precios y personas son de la propiedad. Nombres, tarjetas y funciones están en staff.yaml.',
  devices: 'Aparatos emparejados',
  devicesHow: 'Una tableta o una oficina se empareja una vez. Si se pierde o deja la tienda: revóquela.',
  noDevices: 'Aún no hay ningún aparato emparejado.',
  device: 'Aparato',
  pairedAt: 'Emparejado',
  seenAt: 'Visto por última vez',
  thisOne: 'este',
  revoke: 'Revocar',
  revokeFor: (name) => `Revocar ${name}`,
  reallyRevoke: (name) => `${name} queda fuera enseguida. ¿Revocar?`,
  pairOne: 'Emparejar una tableta',
  codeIs: 'Dé esto en la tableta, antes de diez minutos:',
  codeHow: 'Empareja un solo aparato.',
  trustFirst: (page) => `Una tableta nueva aprende primero a confiar en la estación: abra allí ${page}.`,
  trustNoNetwork: 'El ordenador del servidor no está en ninguna red: ninguna tableta llega a él.',
  fingerprint: 'Huella (SHA-256)',
  fingerprintHow:
    'La tableta muestra también una. Compárelas signo a signo; si son distintas, no siga: no es esta estación.',
  lockFirst:
    'Con el PIN de la propiedad la tienda queda cerrada con llave: entonces cada persona entra con tarjeta o PIN, en aparatos emparejados.',
  tablet: (bench) => `Tableta de ${bench}`,
};

export const accessWords: Readonly<Record<Language, AccessWords>> = { en, es };
