import type { BenchConfig, Shop } from '#shared/shop/shop.ts';

/**
 * What somebody far away needs to know of the shop's files. Named one by one: names, badges, addresses, texts, secrets and
 * places in the network never come along, whatever else a shop may hold one day.
 */
export function configFacts(shop: Shop): object {
  const { labels, proof, people } = shop;
  return {
    currency: shop.currency,
    timeZone: shop.timeZone,
    language: shop.language,
    units: shop.units,
    country: shop.from.country,
    kinds: shop.wardrobe.kinds.size,
    cloths: shop.wardrobe.cloths.size,
    recipes: shop.recipes.size,
    containers: shop.containers.size,
    wraps: shop.wraps.size,
    supplies: shop.supplies?.length ?? 0,
    rateCards: shop.rates.cards.length,
    collections: shop.collections.length,
    additions: shop.additions.length,
    unasked: shop.unasked ?? [],
    keepScreenAwake: shop.keepScreenAwake ?? true,
    preferences: Object.keys(shop.preferences ?? {}),
    shipmentColumns: Object.values(shop.shipments?.columns ?? {}),
    labels:
      labels === undefined
        ? null
        : {
            secret: labels.secret === null ? 'none' : 'taken out',
            timeoutSeconds: labels.timeoutSeconds,
            attempts: labels.attempts,
            patienceSeconds: labels.patienceSeconds,
          },
    proof:
      proof === undefined
        ? null
        : { rule: typeof proof.photos === 'string' ? proof.photos : 'from a value', keepDays: proof.keepDays },
    people: people === undefined ? null : { gate: people.gate, skills: people.skills.length },
    staff: Object.fromEntries(
      (['packer', 'supervisor', 'owner'] as const).map((role) => [
        role,
        shop.staff.filter((each) => each.role === role).length,
      ]),
    ),
    benches: shop.benches.map(benchFacts),
  };
}

function benchFacts(bench: BenchConfig, index: number): object {
  const { scale, scanner, printer, labelPrinter, voice } = bench;
  return {
    bench: index + 1,
    scale: {
      transport: scale.transport.kind,
      protocol: typeof scale.protocol === 'string' ? scale.protocol : 'own form',
      division: scale.division,
      capacity: scale.capacity,
      reference: scale.reference !== undefined,
    },
    scanner: scanner === null ? null : { transport: scanner.transport.kind },
    printer: {
      transport: printer.transport.kind,
      paper: printer.paper,
      columns: printer.columns,
      cutter: printer.cutter,
    },
    labelPrinter:
      labelPrinter === undefined ? null : { transport: labelPrinter.transport.kind, speaks: labelPrinter.speaks },
    labelProgram: bench.labelProgram !== undefined,
    voice: voice === undefined ? null : { microphone: voice.microphone.kind, listening: voice.listening },
  };
}
