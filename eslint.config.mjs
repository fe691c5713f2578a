import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import tseslint from 'typescript-eslint';

/** Which of our own rooms each room may import (DEVELOPERS.md, "The import rule"). */
const MAY_IMPORT = {
  shared: [],
  config: ['shared'],
  drivers: ['shared'],
  'station-ui': ['shared'],
  server: ['shared', 'drivers', 'config'],
};
const ROOMS = ['shared', 'config', 'drivers', 'server', 'station-ui'];

function importRule(room) {
  const forbidden = ROOMS.filter((other) => other !== room && !MAY_IMPORT[room].includes(other));
  const patterns = forbidden.map((other) => ({
    group: [`#${other}/*`, `#${other}/**`],
    message: `${room} must not import ${other}.`,
  }));
  // A relative path that climbs out into another room would slip past the aliases.
  patterns.push({
    regex: `^(\\.\\./)+(${ROOMS.filter((other) => other !== room).join('|')})(/|$)`,
    message: 'Reach another room by its #alias.',
  });
  return patterns;
}

const LOCAL_TIME = ['FullYear', 'Month', 'Date', 'Day', 'Hours', 'Minutes']
  .flatMap((part) => [`get${part}`, `set${part}`])
  .concat('getTimezoneOffset', 'toLocaleDateString', 'toLocaleTimeString', 'toDateString', 'toTimeString')
  .map((property) => ({ property, message: 'Days and hours are the shop’s, in its time zone: not this computer’s.' }));

const NOT_IN_THE_CORE = [
  'process',
  'Buffer',
  'window',
  'document',
  'navigator',
  'localStorage',
  'fetch',
  'performance',
  'crypto',
  'console',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'queueMicrotask',
  'require',
  'globalThis',
].map((name) => ({ name, message: 'The core is pure: no I/O, clock, randomness or platform.' }));

export default tseslint.config(
  { ignores: ['build/**', 'data/**', 'node_modules/**'] },
  js.configs.recommended,
  {
    files: ['**/*.ts'],
    extends: [...tseslint.configs.strictTypeChecked, ...tseslint.configs.stylisticTypeChecked],
    languageOptions: {
      parserOptions: { project: ['./tsconfig.json', './tsconfig.ui.json'], tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      '@typescript-eslint/switch-exhaustiveness-check': ['error', { considerDefaultExhaustiveForUnions: true }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/consistent-type-imports': 'error',
      // process.env and records are read by index: the type checker asks for it.
      '@typescript-eslint/dot-notation': ['error', { allowIndexSignaturePropertyAccess: true }],
      '@typescript-eslint/consistent-type-definitions': 'off',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      'no-restricted-exports': ['error', { restrictDefaultExports: { direct: true, named: true } }],
      'max-lines': ['error', { max: 400, skipBlankLines: true, skipComments: true }],
      eqeqeq: ['error', 'always', { null: 'ignore' }],
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_$', ignoreRestSiblings: true }],
    },
  },
  ...ROOMS.map((room) => ({
    files: [`${room}/**/*.ts`],
    rules: {
      'no-restricted-imports': ['error', { patterns: importRule(room) }],
      'no-restricted-properties': ['error', ...LOCAL_TIME],
    },
  })),
  {
    files: ['server/**/*.ts'],
    ignores: ['server/store/in-transaction.ts', 'server/store/postgres/move-store.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: "CallExpression[callee.property.name='transaction'][arguments.length=0]",
          message: 'Use inTransaction(store, work): it is right on PostgreSQL too.',
        },
      ],
    },
  },
  {
    files: ['station-ui/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: "TaggedTemplateExpression[tag.name='html'] > TemplateLiteral > ObjectExpression",
          message:
            'Keep the object (a constant, a field): a new one at each drawing makes the element begin anew, and what was chosen in it is gone.',
        },
      ],
    },
  },
  {
    files: ['shared/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            ...importRule('shared'),
            { regex: '^[^.#]', message: 'The core imports no package and no Node module.' },
          ],
        },
      ],
      'no-restricted-globals': ['error', ...NOT_IN_THE_CORE],
      'no-restricted-properties': [
        'error',
        ...LOCAL_TIME,
        { object: 'Math', property: 'random', message: 'The core has no randomness.' },
        { object: 'Date', property: 'now', message: 'The core has no clock.' },
      ],
      'no-restricted-syntax': [
        'error',
        { selector: 'NewExpression[callee.name="Date"][arguments.length=0]', message: 'The core has no clock.' },
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-floating-promises': 'error',
      // A typed answer of a request is worth its type parameter.
      '@typescript-eslint/no-unnecessary-type-parameters': 'off',
      'max-lines': 'off',
    },
  },
  {
    files: ['**/*.config.ts', '**/*.mjs'],
    extends: [tseslint.configs.disableTypeChecked],
    languageOptions: { globals: { process: 'readonly', console: 'readonly', URL: 'readonly', setTimeout: 'readonly' } },
    rules: { 'no-restricted-exports': 'off' },
  },
  prettier,
);
