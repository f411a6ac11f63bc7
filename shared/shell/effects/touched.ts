/** What a command touches: files, packages, services and the like, by name where it is known. */
import { valuesOf, type Arguments } from '../options/arguments.ts'
import type { ScriptWord } from '../reading/tree.ts'
import type { EffectRow, Selector, TouchedKind } from './rows.ts'

export interface Touched {
  readonly kind: TouchedKind
  /** As written, a unit without `.service`. Null where it is not known. */
  readonly name: string | null
  readonly how: 'read' | 'changed' | 'destroyed'
}

export function touchedBy(row: EffectRow, args: Arguments, words: readonly ScriptWord[]): Touched[] {
  const rest = args.operands.slice(row.subcommands.filter(([first]) => first !== '*').length)
  // With a wildcard in the middle (`service name start`) the operand before is what is touched.
  const operands = row.subcommands[0]?.[0] === '*' ? args.operands : rest
  const how = row.effects.includes('destroys')
    ? 'destroyed'
    : row.effects.includes('changes')
      ? 'changed'
      : 'read'
  return row.touches.flatMap((selector) =>
    selected(selector, operands, args, words).map((name) =>
      toTouched(selector.kind, name, selector.onlyReads ? 'read' : how),
    ),
  )
}

const blockDevice =
  /^\/dev\/(?:sd|hd|vd|xvd|nvme|mmcblk|md|dm-|mapper\/|disk\/|loop|sr|zvol\/|[^/]*vg[^/]*\/)/u

/** Whether a path is that of a disk or a part of one. */
export const isBlockDevice = (path: string): boolean => blockDevice.test(path)

export function toTouched(kind: TouchedKind, name: string | null, how: Touched['how']): Touched {
  if (kind === 'service') return { kind, name: name?.replace(/\.service$/u, '') ?? null, how }
  if (kind === 'file' && name !== null && isBlockDevice(name)) {
    return { kind: 'device', name, how: how === 'read' ? 'read' : 'destroyed' }
  }
  if (kind === 'file' && name !== null && /^\/(?:proc|sys)\//u.test(name))
    return { kind: 'setting', name, how }
  return { kind, name, how }
}

function selected(
  { which }: Selector,
  operands: readonly ScriptWord[],
  args: Arguments,
  words: readonly ScriptWord[],
): (string | null)[] {
  const values = (found: readonly (ScriptWord | undefined)[]): (string | null)[] =>
    found.flatMap((one) => (one === undefined ? [] : [one.value]))
  if (which === '*') return values(operands)
  if (which === 'last') return values(operands.slice(-1))
  if (which === '-last') return values(operands.slice(0, -1))
  if (/^\d+$/u.test(which)) return values([operands[Number(which) - 1]])
  if (/^\d+\+$/u.test(which)) return values(operands.slice(Number.parseInt(which, 10) - 1))
  if (which.startsWith('-')) return values(valuesOf(args, [which]))
  if (which.endsWith('=')) return keyed(which, words)
  if (which.endsWith('>')) return values(following(which.slice(0, -1), words))
  return [which]
}

function keyed(key: string, words: readonly ScriptWord[]): (string | null)[] {
  return words
    .filter(({ text }) => text.startsWith(key))
    .map(({ value }) => (value === null ? null : value.slice(key.length)))
}

function following(name: string, words: readonly ScriptWord[]): readonly (ScriptWord | undefined)[] {
  return words.flatMap(({ value }, n) => (value === name ? [words[n + 1]] : []))
}

/** Folders that only root may change where a system is set up as usual (Filesystem Hierarchy Standard 3.0, 3). */
const rootsOnly = /^\/(?:bin|boot|dev|etc|lib\w*|opt|proc|root|run|sbin|srv|sys|usr|var)(?:\/|$)/u
const anyones =
  /^\/(?:var\/tmp|var\/mail|dev\/(?:null|zero|full|u?random|tty|std\w+|fd|shm)|run\/user)(?:\/|$)/u

/** Whether changing a path usually needs root. */
export const isRootsPath = (path: string): boolean => rootsOnly.test(path) && !anyones.test(path)
