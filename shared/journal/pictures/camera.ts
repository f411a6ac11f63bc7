/** What a camera wrote into a picture beside the pixels: when it was taken, by which camera, and whether it says where (Exif 2.32). */
import { loadView } from 'exifreader'

export interface CameraTime {
  /** What the camera's clock showed, as milliseconds since 1970-01-01T00:00:00 of that same clock. */
  readonly local: number
  /** Minutes east of UTC that the camera says it was set to; null where it does not say. */
  readonly offset: number | null
}

export interface CameraSays {
  /** Null where the picture does not say. */
  readonly taken: CameraTime | null
  /** Maker and model; empty where the picture names none. */
  readonly camera: string
  /** Exif's own number for how it is to be turned, 1 to 8 (Exif 2.32 §4.6.4 A); 1 where it does not say. */
  readonly orientation: number
  readonly saysWhere: boolean
}

const nothingSaid: CameraSays = { taken: null, camera: '', orientation: 1, saysWhere: false }

const wanted = [
  'Make',
  'Model',
  'Orientation',
  'DateTimeOriginal',
  'SubSecTimeOriginal',
  'OffsetTimeOriginal',
  'DateTimeDigitized',
  'SubSecTimeDigitized',
  'OffsetTimeDigitized',
  'GPSLatitude',
  'GPSLongitude',
]

/** Reads a picture's bytes. What is broken or not there is not said. */
export function cameraSays(bytes: Uint8Array): CameraSays {
  const tags = tagsOf(bytes)
  if (!tags) return nothingSaid
  const said = (name: string): string => textOf(tags[name])
  const [make, model] = [said('Make'), said('Model')]
  return {
    taken:
      toCameraTime(said('DateTimeOriginal'), said('SubSecTimeOriginal'), said('OffsetTimeOriginal')) ??
      toCameraTime(said('DateTimeDigitized'), said('SubSecTimeDigitized'), said('OffsetTimeDigitized')),
    // Many models begin with their maker's name already.
    camera: model.toLowerCase().startsWith(make.toLowerCase()) ? model : `${make} ${model}`.trim(),
    orientation: toOrientation(tags['Orientation']),
    saysWhere: 'GPSLatitude' in tags || 'GPSLongitude' in tags,
  }
}

interface Tag {
  readonly value?: unknown
}

function tagsOf(bytes: Uint8Array): Readonly<Record<string, Tag | undefined>> | null {
  try {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
    const { exif } = loadView(view, { expanded: true, includeTags: { exif: wanted } })
    return (exif ?? {}) as Readonly<Record<string, Tag | undefined>>
  } catch {
    // Bytes that the library cannot read say nothing.
    return null
  }
}

function textOf(tag: Tag | undefined): string {
  const value: unknown = Array.isArray(tag?.value) ? (tag.value as unknown[])[0] : tag?.value
  return typeof value === 'string' ? value.replace(/\0[^]*$/u, '').trim() : ''
}

function toOrientation(tag: Tag | undefined): number {
  const value: unknown = Array.isArray(tag?.value) ? (tag.value as unknown[])[0] : tag?.value
  return typeof value === 'number' && Number.isInteger(value) && value >= 1 && value <= 8 ? value : 1
}

/**
 * Reads a time as Exif writes it (§4.6.5 D): `2026:11:24 21:05:09`, digits of a fraction, and `+01:00`.
 * @returns null for anything else, and for a clock that was never set, which shows year 0
 */
export function toCameraTime(time: string, fraction: string, offset: string): CameraTime | null {
  const parts = /^(\d{4}):(\d{2}):(\d{2}) (\d{2}):(\d{2}):(\d{2})$/.exec(time)
  if (!parts) return null
  const [year, month, day, hour, minute, second] = parts.slice(1).map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  if (year < 1900 || month < 1 || month > 12 || hour > 23 || minute > 59 || second > 59) return null
  const millis = /^\d+$/.test(fraction) ? Number(fraction.slice(0, 3).padEnd(3, '0')) : 0
  const local = Date.UTC(year, month - 1, day, hour, minute, second, millis)
  return day < 1 || new Date(local).getUTCDate() !== day ? null : { local, offset: toOffset(offset) }
}

function toOffset(text: string): number | null {
  const parts = /^([+-])(\d{2}):(\d{2})$/.exec(text)
  if (!parts) return text === 'Z' ? 0 : null
  const [hours, minutes] = [Number(parts[2]), Number(parts[3])]
  if (hours > 14 || minutes > 59) return null
  return (parts[1] === '-' ? -1 : 1) * (hours * 60 + minutes) + 0
}
