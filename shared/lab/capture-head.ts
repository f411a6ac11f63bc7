import type { Capture, CaptureHead } from './model.ts'

/** A capture without its text. */
export function headOf({ text, ...head }: Capture): CaptureHead {
  return { ...head, length: text.length }
}
