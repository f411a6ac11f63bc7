/**
 * The layers as a lint rule: a folder's name says where its code runs and what it may touch. Every way to name another
 * module is looked at: import, export from, import(), require() and import types.
 */
import { builtinModules } from 'node:module'
import { dirname, relative, resolve, sep } from 'node:path'

/** Packages without DOM, Node or any other environment, which the domain may use. */
const purePackages = new Set([
  '@codemirror/state',
  '@csstools/css-tokenizer',
  '@dagrejs/dagre',
  '@noble/hashes',
  'approx-string-match',
  'canonicalize',
  '@xterm/headless',
  'diff',
  'exifreader',
  'fflate',
  'fractional-indexing',
  'hast-util-from-html',
  'hast-util-from-parse5',
  'hast-util-sanitize',
  'hast-util-select',
  'hast-util-to-mdast',
  'hast-util-to-string',
  'mdast-util-from-markdown',
  'mdast-util-gfm',
  'mdast-util-to-hast',
  'mdast-util-to-markdown',
  'mdast-util-to-string',
  'micromark-extension-gfm',
  'parse5',
  'pdfjs-dist',
  'postal-mime',
  're2js',
  'stemmer',
  'syllable',
  'unbash',
  'unist-util-visit',
  'uuid',
  'valibot',
])
/** Packages of types only. */
const typePackages = new Set(['hast', 'mdast', 'unist'])

/** Which folders a folder's code may import. Folders that are not named here may import everything but Electron. */
const folders = new Map([
  ['shared', ['shared']],
  ['renderer', ['renderer', 'shared']],
  ['app', ['app', 'shared']],
])

/** @type {import('eslint').Rule.RuleModule} */
export const layersRule = {
  meta: {
    type: 'problem',
    docs: { description: 'keep each folder within its layer' },
    schema: [
      {
        type: 'object',
        properties: { root: { type: 'string' } },
        required: ['root'],
        additionalProperties: false,
      },
    ],
    messages: { crossed: '{{reason}}' },
  },
  create(context) {
    const options = /** @type {{ root: string }} */ (context.options[0])
    const file = relative(options.root, context.filename).split(sep)
    /** @param {any} node @param {any} source */
    const look = (node, source) => {
      if (source?.type !== 'Literal' || typeof source.value !== 'string') return
      const reason = maybeReason(options.root, file, source.value)
      if (reason !== null) context.report({ node, messageId: 'crossed', data: { reason } })
    }
    return {
      ImportDeclaration: (node) => look(node, node.source),
      ExportNamedDeclaration: (node) => look(node, node.source),
      ExportAllDeclaration: (node) => look(node, node.source),
      ImportExpression: (node) => look(node, node.source),
      CallExpression: (node) => {
        if (node.callee.type === 'Identifier' && node.callee.name === 'require') look(node, node.arguments[0])
      },
      TSImportType: (/** @type {any} */ node) => look(node, node.source ?? node.argument?.literal),
    }
  },
}

/**
 * Why a file may not import a module, null when it may.
 *
 * @param {string} root the project's folder
 * @param {string[]} file the importing file's path below it, in segments
 * @param {string} name what the import says
 */
function maybeReason(root, file, name) {
  const own = file[0] ?? ''
  if (name.startsWith('.') || name.startsWith('/')) return maybeFolderReason(root, file, own, name)
  const isNode = name.startsWith('node:') || builtinModules.includes(name.split('/')[0] ?? '')
  return maybePackageReason(file, own, isNode ? 'node' : packageOf(name), name)
}

/** @param {string} root @param {string[]} file @param {string} own @param {string} name */
function maybeFolderReason(root, file, own, name) {
  const target = relative(root, resolve(root, dirname(file.join('/')), name)).split(sep)[0] ?? ''
  const allowed = folders.get(own)
  if (allowed === undefined || allowed.includes(target)) return null
  return `${own}/ may import from ${allowed.join('/ and ')}/ only, not from ${target}`
}

/** @param {string[]} file @param {string} own @param {string} pkg @param {string} name */
function maybePackageReason(file, own, pkg, name) {
  if (pkg === 'electron' && own !== 'app') return 'only app/ may import electron'
  if (/^dexie(-|$)/.test(pkg) && own !== 'test' && !(own === 'renderer' && file[1] === 'db')) {
    return 'only renderer/db/ may import dexie'
  }
  if (own === 'shared' && !purePackages.has(pkg) && !typePackages.has(pkg)) {
    return `shared/ is pure: ${name} is not among the packages that it may import (build/layers.mjs names them)`
  }
  if (own === 'renderer' && pkg === 'node') return `renderer/ runs in a page, where ${name} does not exist`
  return null
}

/** @param {string} name */
function packageOf(name) {
  return name
    .split('/')
    .slice(0, name.startsWith('@') ? 2 : 1)
    .join('/')
}
