/**
 * JSON Schemas of all that crosses the wire, made by TypeScript's own checker from `shared/wire/contract.ts`: the types that
 * the server and the pages are compiled against are the ones that the API's documents show.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

const CONTRACT = 'shared/wire/contract.ts';
const BYTES = new Set(['ArrayBuffer', 'Uint8Array']);
const INTERFACES = { answers: 'WireAnswers', namespaces: 'WireNamespaces' };

/** Writes `{ schemas, answers, events }` to a file: named schemas, the answers' names, and the events of the sockets. */
export function writeWireSchemas(root, to) {
  const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
  const { options } = ts.convertCompilerOptionsFromJson(config.compilerOptions, root);
  const program = ts.createProgram([join(root, CONTRACT)], { ...options, types: [] });
  const contract = program.getSourceFile(join(root, CONTRACT));
  const made = new WireSchemas(program.getTypeChecker(), contract);
  mkdirSync(dirname(to), { recursive: true });
  writeFileSync(to, JSON.stringify(made.all()));
}

class WireSchemas {
  #checker;
  #contract;
  /** the schemas that have a name, and which symbol has it */
  #schemas = {};
  #named = new Map();

  constructor(checker, contract) {
    this.#checker = checker;
    this.#contract = contract;
  }

  all() {
    const answers = this.#membersOf(this.#interface(INTERFACES.answers)).map(({ name, type, about }) => {
      const schema = this.#schema(type, name);
      this.#schemas[name] ??= { ...schema, ...about };
      return name;
    });
    const events = this.#membersOf(this.#interface(INTERFACES.namespaces)).flatMap(({ name: namespace, type }) =>
      this.#membersOf(type).flatMap(({ name: direction, type: events }) =>
        this.#membersOf(events).map((event) => ({ namespace, direction, ...this.#event(event) })),
      ),
    );
    const schemas = Object.fromEntries(Object.entries(this.#schemas).sort(([a], [b]) => (a < b ? -1 : 1)));
    return { schemas, answers, events };
  }

  #interface(name) {
    const declared = this.#contract.statements.find(
      (each) => ts.isInterfaceDeclaration(each) && each.name.text === name,
    );
    return this.#checker.getTypeAtLocation(declared);
  }

  #membersOf(type) {
    return this.#checker.getPropertiesOfType(type).map((symbol) => ({
      name: symbol.name,
      type: this.#checker.getTypeOfSymbol(symbol),
      optional: (symbol.flags & ts.SymbolFlags.Optional) !== 0,
      about: this.#about(symbol),
    }));
  }

  #about(symbol) {
    const words = ts.displayPartsToString(symbol?.getDocumentationComment(this.#checker) ?? []);
    return words === '' ? {} : { description: words.replaceAll(/\s*\n\s*/g, ' ') };
  }

  /** An event's arguments, and what is acknowledged where its last argument is a function. */
  #event({ name, type, about }) {
    const [signature] = type.getCallSignatures();
    if (signature === undefined)
      throw new Error(`${name}: expected a function, found ${this.#checker.typeToString(type)}`);
    const parameters = signature.getParameters().map((symbol) => ({
      name: symbol.name,
      optional: symbol.valueDeclaration?.questionToken !== undefined,
      type: this.#checker.getNonNullableType(this.#checker.getTypeOfSymbol(symbol)),
    }));
    const acknowledged = parameters.at(-1)?.type.getCallSignatures()[0]?.getParameters()[0];
    return {
      event: name,
      about: about.description ?? '',
      arguments: parameters
        .filter(({ type: each }) => each.getCallSignatures().length === 0)
        .map(({ name: argument, optional, type: each }) => ({
          name: argument,
          optional,
          schema: this.#schema(each, name),
        })),
      ack: acknowledged === undefined ? null : this.#schema(this.#checker.getTypeOfSymbol(acknowledged), name),
    };
  }

  /** The schema of a type, or a reference to it where it has a name of its own. */
  #schema(type, place) {
    const symbol = nameOf(type);
    if (symbol === null) return this.#whole(type, place);
    const taken = this.#named.get(symbol.name);
    const name = taken === undefined || taken === symbol ? symbol.name : `${roomOf(symbol)}${symbol.name}`;
    if (this.#named.get(name) === undefined) {
      this.#named.set(name, symbol);
      this.#schemas[name] = {};
      this.#schemas[name] = { ...this.#whole(type, name), ...this.#about(symbol) };
    }
    return { $ref: `#/components/schemas/${name}` };
  }

  #whole(type, place) {
    const { flags } = type;
    if (flags & (ts.TypeFlags.Any | ts.TypeFlags.Unknown)) return {};
    if (flags & ts.TypeFlags.Null) return { type: 'null' };
    if (flags & ts.TypeFlags.BooleanLiteral) return { const: this.#checker.typeToString(type) === 'true' };
    if (flags & (ts.TypeFlags.StringLiteral | ts.TypeFlags.NumberLiteral)) return { const: type.value };
    if (flags & ts.TypeFlags.Boolean) return { type: 'boolean' };
    // A template of texts is a text; of these, none crosses the wire with a rule that a schema could tell.
    if (flags & (ts.TypeFlags.String | ts.TypeFlags.TemplateLiteral)) return { type: 'string' };
    if (flags & ts.TypeFlags.Number) return { type: 'number' };
    if (type.isUnion()) return this.#union(type, place);
    if (type.isIntersection()) {
      // A quantity: a number with a mark that exists only for the compiler.
      const bare = type.types.find((each) => each.flags & (ts.TypeFlags.Number | ts.TypeFlags.String));
      if (bare !== undefined) return bare.flags & ts.TypeFlags.Number ? { type: 'integer' } : { type: 'string' };
    }
    if (this.#checker.isTupleType(type)) {
      const items = this.#checker.getTypeArguments(type).map((each) => this.#schema(each, place));
      return { type: 'array', prefixItems: items, items: false, minItems: items.length };
    }
    if (this.#checker.isArrayType(type)) {
      return { type: 'array', items: this.#schema(this.#checker.getTypeArguments(type)[0], place) };
    }
    if (flags & ts.TypeFlags.Object || type.isIntersection()) return this.#object(type, place);
    throw new Error(`${place}: no schema for ${this.#checker.typeToString(type)}`);
  }

  #union(type, place) {
    const arms = type.types.filter(({ flags }) => !(flags & ts.TypeFlags.Undefined));
    const schemas = arms.map((each) => this.#schema(each, place));
    const bools = schemas.filter((each) => typeof each.const === 'boolean').length === 2;
    const fixed = schemas.filter((each) => 'const' in each && !(bools && typeof each.const === 'boolean'));
    const others = schemas.filter((each) => !('const' in each));
    const all = [
      ...(fixed.length === 0 ? [] : fixed.length === 1 ? fixed : [{ enum: fixed.map((each) => each.const) }]),
      ...(bools ? [{ type: 'boolean' }] : []),
      ...others,
    ];
    return all.length === 1 ? all[0] : { anyOf: all };
  }

  #object(type, place) {
    if (BYTES.has(type.symbol?.name)) return { description: 'bytes, as a binary attachment' };
    if (type.getCallSignatures().length > 0) throw new Error(`${place}: a function cannot cross the wire`);
    const members = this.#membersOf(type);
    const rest = this.#checker.getIndexInfosOfType(type)[0];
    const required = members.filter(({ optional }) => !optional).map(({ name }) => name);
    return {
      type: 'object',
      ...(members.length === 0
        ? {}
        : {
            properties: Object.fromEntries(
              members.map(({ name, type: each, about }) => [
                name,
                { ...this.#schema(each, `${place}.${name}`), ...about },
              ]),
            ),
          }),
      ...(required.length === 0 ? {} : { required }),
      ...(rest === undefined ? {} : { additionalProperties: this.#schema(rest.type, place) }),
    };
  }
}

/** The file of a symbol, as the beginning of a name: two files may call different things the same. */
function roomOf(symbol) {
  const file = symbol.declarations[0].getSourceFile().fileName;
  const words = file.slice(file.lastIndexOf('/') + 1, -'.ts'.length).split('-');
  return words.map((word) => word[0].toUpperCase() + word.slice(1)).join('');
}

/** The symbol that gives a type its name; null where it has none, or is one of many that a generic type makes. */
function nameOf(type) {
  if (type.aliasSymbol !== undefined) {
    const own =
      type.aliasTypeArguments === undefined &&
      type.aliasSymbol.declarations?.[0]?.getSourceFile().hasNoDefaultLib !== true;
    return own ? type.aliasSymbol : null;
  }
  const { symbol } = type;
  const isInterface = (symbol?.flags ?? 0) & ts.SymbolFlags.Interface;
  if (!isInterface || symbol.name === '__type' || BYTES.has(symbol.name)) return null;
  return type.typeArguments?.length > 0 || symbol.name === 'Array' || symbol.name === 'ReadonlyArray' ? null : symbol;
}
