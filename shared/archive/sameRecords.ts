/** Whether a copy of a lab holds the same records. */
import type { Dump } from '../lab/upgrade.ts'

/**
 * The first table in which two dumps differ; null where all records are the same, in the same order. A field without a value
 * is as if it were not there. What JSON cannot hold is never the same as anything.
 */
export function findDifference(one: Dump, other: Dump): string | null {
  const names = new Set([...Object.keys(one), ...Object.keys(other)])
  return [...names].find((name) => !isSameValue(one[name] ?? [], other[name] ?? [])) ?? null
}

function isSameValue(one: unknown, other: unknown): boolean {
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return one === other
  if (one instanceof Uint8Array || other instanceof Uint8Array) return areSameBytes(one, other)
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((item, i) => isSameValue(item, other[i]))
  return isPlain(one) && isPlain(other) && areSameFields(one, other)
}

function areSameBytes(one: unknown, other: unknown): boolean {
  if (!(one instanceof Uint8Array) || !(other instanceof Uint8Array)) return false
  return one.length === other.length && one.every((byte, i) => byte === other[i])
}

type Fields = Readonly<Record<string, unknown>>

function areSameFields(one: Fields, other: Fields): boolean {
  const names = new Set([...Object.keys(one), ...Object.keys(other)])
  return [...names].every((name) => isSameValue(one[name], other[name]))
}

/** Not a Date, a Map or another thing whose content is not in its fields. */
function isPlain(value: object): value is Fields {
  return Object.prototype.toString.call(value) === '[object Object]'
}
