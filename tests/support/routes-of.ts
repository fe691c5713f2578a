import type { Express } from 'express';

/** The parts of an express router that its types leave out. */
interface Layer {
  readonly name: string;
  readonly slash?: boolean;
  readonly route?: { readonly path: string | readonly string[]; readonly methods: Readonly<Record<string, boolean>> };
  readonly handle: { readonly stack?: readonly Layer[] };
  match(path: string): boolean;
}

/** Every route of an app as `GET /api/orders/:id`, also those of the routers in it. */
export function routesOf(app: Express): readonly string[] {
  const found = new Set<string>();
  const { stack } = (app as unknown as { readonly router: { readonly stack: readonly Layer[] } }).router;
  collect(stack, '', found);
  return [...found];
}

function collect(stack: readonly Layer[], under: string, found: Set<string>): void {
  for (const layer of stack) {
    if (layer.route !== undefined) {
      const { path, methods } = layer.route;
      for (const each of [path].flat()) {
        for (const method of Object.keys(methods)) found.add(`${method.toUpperCase()} ${under}${each}`);
      }
    } else if (layer.handle.stack !== undefined) {
      // The guard's own router is made of the table.
      if (isGuard(layer.handle.stack)) continue;
      collect(layer.handle.stack, layer.slash === true ? under : `${under}${mountOf(layer)}`, found);
    }
  }
}

const MOUNTS = ['/api', '/metrics'];

function mountOf(layer: Layer): string {
  const mount = MOUNTS.find((each) => layer.match(each));
  if (mount === undefined) throw new Error('a router under a path that this test does not know: add it to MOUNTS');
  return mount;
}

function isGuard(stack: readonly Layer[]): boolean {
  return stack.some(({ name }) => name === 'nothingListed');
}
