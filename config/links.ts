import { basename } from 'node:path';
import { SHARABLE_FILES, type CheckedFolder } from './checked-folder.ts';
import type { Problem } from './config-error.ts';
import { oneOf } from './nearest.ts';
import { describe, type Path, type SourceFile } from './source-file.ts';

/** What the files of a folder say of each other: every name that one uses and no other defines, and clashes. */
export function linkProblems(files: CheckedFolder): readonly Problem[] {
  return [
    ...wardrobe(files),
    ...layings(files),
    ...containerOwners(files),
    ...preferredWraps(files),
    ...outOfStock(files),
    ...stocked(files),
    ...rateCards(files),
    ...collections(files),
    ...sharedFiles(files),
    ...badges(files),
    ...skillKinds(files),
    ...aliases(files),
  ];
}

/** A problem where `id` is used but not among what is known; none where the defining file itself has problems. */
function unknown(
  source: SourceFile,
  path: Path,
  id: string,
  known: Iterable<string> | undefined,
  what: string,
): Problem[] {
  if (known === undefined) return [];
  const all = [...known];
  return all.includes(id) ? [] : [source.problem(path, `${what}: ${oneOf(all, id)}`, describe(id))];
}

function keysOf(record: object | undefined): readonly string[] | undefined {
  return record === undefined ? undefined : Object.keys(record);
}

function wardrobe({ garments, cloths, recipes }: CheckedFolder): Problem[] {
  if (garments === undefined) return [];
  const recipeIds = keysOf(recipes?.value.recipes);
  const clothIds = keysOf(cloths?.value.cloths);
  return Object.entries(garments.value.kinds).flatMap(([id, kind]) => {
    const at = (...rest: (string | number)[]): Path => ['kinds', id, ...rest];
    return [
      ...(['recipes', 'uncreased'] as const).flatMap((list) =>
        (kind[list] ?? []).flatMap((recipe, index) =>
          unknown(garments.source, at(list, index), recipe, recipeIds, 'a recipe of recipes.yaml'),
        ),
      ),
      ...unknown(garments.source, at('defaultCloth'), kind.defaultCloth, clothIds, 'a cloth of cloths.yaml'),
    ];
  });
}

/** The kinds that a recipe is for, and the other part of a set that it lays on. */
function layings({ recipes, garments }: CheckedFolder): Problem[] {
  if (recipes === undefined) return [];
  const kinds = keysOf(garments?.value.kinds);
  const known = (path: Path, kind: string) =>
    unknown(recipes.source, ['recipes', ...path], kind, kinds, 'a kind of garments.yaml');
  return Object.entries(recipes.value.recipes).flatMap(([id, { steps, kinds: named = [] }]) => [
    ...named.flatMap((kind, index) => known([id, 'kinds', index], kind)),
    ...steps.flatMap((step, index) => (step.do === 'lay-on' ? known([id, 'steps', index, 'kind'], step.kind) : [])),
  ]);
}

function preferredWraps({ shop, containers }: CheckedFolder): Problem[] {
  if (shop === undefined) return [];
  const wraps = keysOf(containers?.value.wraps);
  return (shop.value.preferences?.wrapAbove?.wraps ?? []).flatMap((wrap, index) =>
    unknown(shop.source, ['preferences', 'wrapAbove', 'wraps', index], wrap, wraps, 'a wrap of containers.yaml'),
  );
}

function outOfStock({ supplies, containers }: CheckedFolder): Problem[] {
  if (supplies === undefined) return [];
  const ids = keysOf(containers?.value.containers);
  return (supplies.value.outOfStock ?? []).flatMap((container, index) =>
    unknown(supplies.source, ['outOfStock', index], container, ids, 'a container of containers.yaml'),
  );
}

/** What supplies say of containers and wraps; a container is counted by one supply alone. */
function stocked({ supplies, containers }: CheckedFolder): Problem[] {
  if (supplies === undefined) return [];
  const { source, value } = supplies;
  const ids = keysOf(containers?.value.containers);
  const wrapIds = keysOf(containers?.value.wraps);
  const countedBy = new Map<string, string>();
  return Object.entries(value.supplies ?? {}).flatMap(([id, { container, uses }]) => {
    const at = (...rest: (string | number)[]): Path => ['supplies', id, ...rest];
    const other = container === undefined ? undefined : countedBy.get(container);
    if (container !== undefined) countedBy.set(container, other ?? id);
    return [
      ...(container === undefined
        ? []
        : unknown(source, at('container'), container, ids, 'a container of containers.yaml')),
      ...(other === undefined
        ? []
        : [source.problem(at('container'), 'each container once', `"${String(container)}", which ${other} has too`)]),
      ...uses.flatMap((use, index) => [
        ...(use.containers ?? []).flatMap((each, place) =>
          unknown(source, at('uses', index, 'containers', place), each, ids, 'a container of containers.yaml'),
        ),
        ...(use.wraps ?? []).flatMap((each, place) =>
          unknown(source, at('uses', index, 'wraps', place), each, wrapIds, 'a wrap of containers.yaml'),
        ),
      ]),
    ];
  });
}

function carriersOf({ rateCards: cards, cardsMissing }: CheckedFolder): readonly string[] | undefined {
  return cards.length === 0 || cardsMissing ? undefined : [...new Set(cards.map((card) => card.value.carrier))];
}

function containerOwners(files: CheckedFolder): Problem[] {
  const { containers } = files;
  if (containers === undefined) return [];
  return Object.entries(containers.value.containers).flatMap(([id, { ownedBy }]) =>
    ownedBy === undefined
      ? []
      : unknown(
          containers.source,
          ['containers', id, 'ownedBy'],
          ownedBy,
          carriersOf(files),
          'a carrier with a rate card',
        ),
  );
}

function rateCards({ rateCards: cards, containers, shop }: CheckedFolder): Problem[] {
  const containerIds = keysOf(containers?.value.containers);
  return cards.flatMap(({ source, value }) => [
    ...(shop === undefined || shop.value.currency === value.currency
      ? []
      : [source.problem(['currency'], `${shop.value.currency}, the currency of shop.yaml`)]),
    ...value.services.flatMap((service, index) =>
      (service.containers ?? []).flatMap((container, place) =>
        unknown(
          source,
          ['services', index, 'containers', place],
          container,
          containerIds,
          'a container of containers.yaml',
        ),
      ),
    ),
    ...value.services.flatMap((service, index) =>
      service.prices.flatMap((rule, ruleIndex) =>
        rule.rule !== 'flat-fee'
          ? []
          : rule.fees.flatMap((fee, feeIndex) =>
              unknown(
                source,
                ['services', index, 'prices', ruleIndex, 'fees', feeIndex, 'container'],
                fee.container,
                containerIds,
                'a container of containers.yaml',
              ),
            ),
      ),
    ),
  ]);
}

function collections(files: CheckedFolder): Problem[] {
  const { shop } = files;
  if (shop === undefined) return [];
  const all = shop.value.collections;
  return all.flatMap(({ carrier, at }, index) => [
    ...unknown(
      shop.source,
      ['collections', index, 'carrier'],
      carrier,
      carriersOf(files),
      'a carrier with a rate card',
    ),
    ...(all.findIndex((other) => other.carrier === carrier && other.at === at) === index
      ? []
      : [shop.source.problem(['collections', index], 'each collection once')]),
  ]);
}

/** A shared file is found by its name, so a name that no file of a shop has would be passed over in silence. */
function sharedFiles({ shop }: CheckedFolder): Problem[] {
  if (shop === undefined) return [];
  return (shop.value.sharedFiles ?? []).flatMap((path, index) => {
    const name = basename(path);
    if (SHARABLE_FILES.some((each) => each === name)) return [];
    return [shop.source.problem(['sharedFiles', index], `a path to ${oneOf(SHARABLE_FILES, name)}`)];
  });
}

/** A badge is scanned with the same gun as everything else, so it must differ from the ids that are on barcodes too. */
function badges({ staff, containers }: CheckedFolder): Problem[] {
  if (staff === undefined) return [];
  const containerIds = keysOf(containers?.value.containers) ?? [];
  const holder = new Map<string, string>();
  return Object.entries(staff.value.staff).flatMap(([id, { badge }]) => {
    const path = ['staff', id, 'badge'];
    const other = holder.get(badge.toUpperCase());
    holder.set(badge.toUpperCase(), other ?? id);
    if (other !== undefined)
      return [staff.source.problem(path, 'a badge of its own', `"${badge}", which ${other} has too`)];
    return containerIds.some((container) => container.toUpperCase() === badge.toUpperCase())
      ? [staff.source.problem(path, 'a badge that is no container id', `"${badge}"`)]
      : [];
  });
}

function skillKinds({ people, garments }: CheckedFolder): Problem[] {
  if (people === undefined) return [];
  const known = keysOf(garments?.value.kinds);
  return Object.entries(people.value.skills?.list ?? {}).flatMap(([skill, { kinds }]) =>
    kinds.flatMap((kind, index) =>
      unknown(people.source, ['skills', 'list', skill, 'kinds', index], kind, known, 'a kind of garments.yaml'),
    ),
  );
}

/** One header must not stand for two fields. */
function aliases({ imports }: CheckedFolder): Problem[] {
  if (imports === undefined) return [];
  return (['pieces', 'orders'] as const).flatMap((subject) => {
    const fieldOf = new Map<string, string>();
    return Object.entries(imports.value[subject]).flatMap(([field, names]) =>
      (names ?? []).flatMap((name, index) => {
        const plain = name
          .normalize('NFKD')
          .replace(/\p{M}/gu, '')
          .toLowerCase()
          .replace(/[^\p{L}\p{N}]+/gu, '');
        const other = fieldOf.get(plain);
        fieldOf.set(plain, other ?? field);
        if (other === undefined || other === field) return [];
        return [
          imports.source.problem(
            [subject, field, index],
            'a header of one field only',
            `"${name}", which ${other} has too`,
          ),
        ];
      }),
    );
  });
}
