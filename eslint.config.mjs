import { fileURLToPath } from 'node:url'
import prettier from 'eslint-config-prettier'
import { createNodeResolver, importX } from 'eslint-plugin-import-x'
import reactHooks from 'eslint-plugin-react-hooks'
import tseslint from 'typescript-eslint'
import { layersRule } from './build/layers.mjs'

const root = fileURLToPath(new URL('.', import.meta.url))

export default tseslint.config(
  { ignores: ['dist/', 'release/', '.cache/', 'test-results/', 'playwright-report/', 'test/fixtures/'] },
  {
    files: ['**/*.{ts,tsx,mjs}'],
    plugins: { stillroom: { rules: { layers: layersRule } }, 'import-x': importX },
    languageOptions: { parser: tseslint.parser },
    linterOptions: { reportUnusedDisableDirectives: 'error' },
    settings: {
      'import-x/extensions': ['.ts', '.tsx', '.mjs'],
      'import-x/parsers': { '@typescript-eslint/parser': ['.ts', '.tsx'] },
      'import-x/resolver-next': [createNodeResolver({ extensions: ['.ts', '.tsx', '.mjs'] })],
      'import-x/external-module-folders': ['node_modules'],
    },
    rules: {
      'stillroom/layers': ['error', { root }],
      'import-x/no-cycle': ['error', { ignoreExternal: true }],
      'no-eval': 'error',
      'no-new-func': 'error',
      'no-control-regex': 'error',
      'no-var': 'error',
      'prefer-const': 'error',
      eqeqeq: 'error',
    },
  },
  {
    files: ['**/*.{ts,tsx}'],
    plugins: { '@typescript-eslint': tseslint.plugin },
    languageOptions: {
      parserOptions: { projectService: { allowDefaultProject: ['*.config.ts'] }, tsconfigRootDir: root },
    },
    rules: {
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': ['error', { checksVoidReturn: { attributes: false } }],
      '@typescript-eslint/await-thenable': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      '@typescript-eslint/only-throw-error': 'error',
      '@typescript-eslint/ban-ts-comment': 'error',
      '@typescript-eslint/no-unsafe-argument': 'error',
      '@typescript-eslint/no-unsafe-assignment': 'error',
      '@typescript-eslint/no-unsafe-call': 'error',
      '@typescript-eslint/no-unsafe-member-access': 'error',
      '@typescript-eslint/no-unsafe-return': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unnecessary-type-assertion': 'error',
    },
  },
  {
    files: ['renderer/**/*.{ts,tsx}'],
    plugins: { 'react-hooks': reactHooks },
    rules: {
      'react-hooks/rules-of-hooks': 'error',
      'react-hooks/exhaustive-deps': 'error',
      'no-restricted-syntax': [
        'error',
        {
          selector: 'JSXAttribute[name.name=/^on(KeyUp|KeyPress|BeforeInput|Select)(Capture)?$/]',
          message: 'These events are kept from React (renderer/unheard.ts): listen on the element itself.',
        },
        {
          selector: 'MemberExpression[property.name=/^(saveFile|printPage)$/]',
          message:
            'What leaves is looked through for secrets before: letFileOut and letPrintOut (renderer/leaving/).',
        },
      ],
      'no-restricted-properties': [
        'error',
        {
          property: 'innerHTML',
          message: 'Text becomes elements through React or a sanitised tree, never through a string of HTML.',
        },
        {
          property: 'outerHTML',
          message: 'Text becomes elements through React or a sanitised tree, never through a string of HTML.',
        },
        {
          property: 'insertAdjacentHTML',
          message: 'Text becomes elements through React or a sanitised tree, never through HTML.',
        },
      ],
    },
  },
  {
    files: ['renderer/leaving/**/*.ts', 'renderer/host/**/*.ts'],
    rules: { 'no-restricted-syntax': 'off' },
  },
  prettier,
)
