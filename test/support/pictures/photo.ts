/**
 * Photos as a camera or a phone writes them, made here byte by byte: a small drawing of a dome as JPEG, and before it
 * the Exif data that a test asks for (Exif 2.32 §4.5.4 and §4.6; TIFF 6.0 §2).
 */

export interface PhotoSays {
  /** `2026:11:24 21:05:09` */
  readonly taken?: string
  readonly fraction?: string
  /** `+01:00` */
  readonly offset?: string
  readonly make?: string
  readonly model?: string
  /** 1 to 8. */
  readonly orientation?: number
  /** Degrees north and east. */
  readonly where?: readonly [number, number]
  /** The order of the bytes in its Exif data. */
  readonly order?: 'II' | 'MM'
  /** Makes the pixels of one photo differ from those of another; 0 to 40. */
  readonly shade?: number
}

/** The bytes of a photo that says this. Without a word it has no Exif data at all. */
export function toPhoto(says: PhotoSays): Uint8Array {
  const bytes = Uint8Array.from(atob(drawing.join('')), (letter) => letter.charCodeAt(0))
  // The first number of the first quantization table (ITU-T T.81 §B.2.4.1) scales how bright the picture is.
  const table = bytes.findIndex((byte, at) => byte === 0xff && bytes[at + 1] === 0xdb)
  bytes[table + 5] = bytes[table + 5]! + (says.shade ?? 0)
  const exif = toExif(says)
  if (exif === null) return bytes
  return join([
    bytes.subarray(0, 2),
    Uint8Array.of(0xff, 0xe1),
    uint16(exif.length + 2),
    exif,
    bytes.subarray(2),
  ])
}

type Field = readonly [tag: number, type: number, count: number, bytes: Uint8Array]

function toExif(says: PhotoSays): Uint8Array | null {
  const little = says.order === 'II'
  const text = (tag: number, value: string | undefined): Field[] =>
    value === undefined
      ? []
      : [[tag, 2, value.length + 1, Uint8Array.from(Buffer.from(`${value}\0`, 'latin1'))]]
  const short = (tag: number, value: number): Field => [tag, 3, 1, number(value, 2, little)]
  const own = [...text(0x9003, says.taken), ...text(0x9011, says.offset), ...text(0x9291, says.fraction)]
  const gps: Field[] = says.where ? whereOf(says.where, little) : []
  const first = [
    ...text(0x010f, says.make),
    ...text(0x0110, says.model),
    ...(says.orientation === undefined ? [] : [short(0x0112, says.orientation)]),
  ]
  if (own.length + gps.length + first.length === 0) return null
  const pointers = (own.length > 0 ? 1 : 0) + (gps.length > 0 ? 1 : 0)
  const ownAt = 8 + sizeOf(first, pointers)
  const gpsAt = ownAt + (own.length > 0 ? sizeOf(own, 0) : 0)
  const pointer = (tag: number, to: number): Field => [tag, 4, 1, number(to, 4, little)]
  const all = [
    ...first,
    ...(own.length > 0 ? [pointer(0x8769, ownAt)] : []),
    ...(gps.length > 0 ? [pointer(0x8825, gpsAt)] : []),
  ]
  return join([
    Uint8Array.from(Buffer.from(`Exif\0\0${little ? 'II' : 'MM'}`, 'latin1')),
    number(42, 2, little),
    number(8, 4, little),
    toDirectory(all, 8, little),
    ...(own.length > 0 ? [toDirectory(own, ownAt, little)] : []),
    ...(gps.length > 0 ? [toDirectory(gps, gpsAt, little)] : []),
  ])
}

function whereOf([north, east]: readonly [number, number], little: boolean): Field[] {
  const degrees = (value: number): Uint8Array => {
    const all = [Math.floor(value), 1, Math.floor((value * 60) % 60), 1, Math.round((value * 3600) % 60), 1]
    return join(all.map((part) => number(part, 4, little)))
  }
  const letter = (value: string): Uint8Array => Uint8Array.from(Buffer.from(`${value}\0`, 'latin1'))
  return [
    [1, 2, 2, letter('N')],
    [2, 5, 3, degrees(north)],
    [3, 2, 2, letter('E')],
    [4, 5, 3, degrees(east)],
  ]
}

/** A directory with the values behind it that are longer than four bytes. */
function toDirectory(fields: readonly Field[], at: number, little: boolean): Uint8Array {
  let free = at + 2 + 12 * fields.length + 4
  const behind: Uint8Array[] = []
  const entries = fields.map(([tag, type, count, bytes]) => {
    const head = join([number(tag, 2, little), number(type, 2, little), number(count, 4, little)])
    if (bytes.length <= 4) return join([head, bytes, new Uint8Array(4 - bytes.length)])
    const padded = join([bytes, new Uint8Array(bytes.length % 2)])
    behind.push(padded)
    const entry = join([head, number(free, 4, little)])
    free += padded.length
    return entry
  })
  return join([number(fields.length, 2, little), ...entries, new Uint8Array(4), ...behind])
}

function sizeOf(fields: readonly Field[], pointers: number): number {
  const behind = fields.map(([, , , { length }]) => (length <= 4 ? 0 : length + (length % 2)))
  return 2 + 12 * (fields.length + pointers) + 4 + behind.reduce((sum, length) => sum + length, 0)
}

const uint16 = (value: number): Uint8Array => number(value, 2, false)

function number(value: number, size: 2 | 4, little: boolean): Uint8Array {
  const bytes = new Uint8Array(size)
  const view = new DataView(bytes.buffer)
  if (size === 2) view.setUint16(0, value, little)
  else view.setUint32(0, value, little)
  return bytes
}

const join = (parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(Buffer.concat(parts))

const drawing = [
  '/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABQODxIPDRQSEBIXFRQYHjIhHhwcHj0sLiQySUBMS0dARkVQWnNiUFVtVkVGZIhlbXd7',
  'gYKBTmCNl4x9lnN+gXz/2wBDARUXFx4aHjshITt8U0ZTfHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8',
  'fHx8fHx8fHz/wAARCAC0APADASIAAhEBAxEB/8QAGgABAQEBAQEBAAAAAAAAAAAAAAIDAQUEBv/EADMQAQEAAQMABggEBwEAAAAA',
  'AAABEQIDBBYhU3KS0QUSIyQxUXGxEyIyNBQzQUJhgaHB/8QAGAEBAQEBAQAAAAAAAAAAAAAAAgABAwT/xAAdEQEBAQACAwEBAAAA',
  'AAAAAAAAARECMQMSIUFR/9oADAMBAAIRAxEAPwDxQHZzAEh2QkXIzWkjsjsipB1rkipHZFSDrUyO4VI7IOtTh3CsO4ZrcRgwvBha',
  'sRhzDTDmFqxnhzDTDmG6zGdibGtibC1jKxyxpYmwpWMrHGliLClY4A1gAkAJDsjkXIytdkVISKkC1pIuQkVINpOSKkdkVIOtckdk',
  'VI7IOtTh3CsO4ZrcRgwvBhasRhzDTDmFqxnhyxphyxusZWJsa2JsKVjOxFjWxNhSsZWJsaWJsKUWVji7EU4wAawAiSpFyJkXIFKO',
  'yLkckXINa7IqRyRcgWkSKkdkVINpOSKkdkVIOtTI7hUjuB1uJwYXgwtWM8OYaYcwtWM7E2NbE2FKxlYmxrYmwpWMrE2NLEWFBZ2I',
  'sa2IsOCzsRY0sRYUYgKGI7HIuMrVRUci4FbFSKkci4FKOyLkckVIFKKkVI5IuQKRIqR3TptskmbXo8fhadE9bdxq1fL+kUl5dK2R',
  '8m1xtzd/Tp6vnfg+rR6Pn9+u/SPsddZ45OwvOvnnC2Z8Zb9aXh7N+Gmz6V9AXrP4PtXx6/R+m/o12fXrfLu8Td2+u6cz5x6wN8cp',
  'TnXg2JsevyOJo3Zbpxp1/wDK8zc0atGq6dUxY5XjeJyysbE2NLEWKJnYixpYmw4LKxNjSopwWVTWlRTgsq4uoOMIuJi4yqKjSIi4',
  'FKLi4iLgUouLiYuBSiouRMfTw9r8XekvwnXR7+F0+zhcf8PT+Jqn5r8P8R9YPRJkxxt0AawASAEh8/K483tHVPzz4X/x9AyzfjZc',
  'eDZhFfb6Q2vU3fWnw19f+3x158y469s6itKilGM6irqKcFFZ1pUU4LOorSopwSLiIuKqLjSM40gUouLiIuBSi4uIi4FKLj0vRunq',
  '16vpHnR9OxydezounTNNluetnGyXa2zY9Yflek3M7LY8N8zpNzOy2PDfN6HF+qH5XpNzOy2PDfM6Tczstjw3zSfqh+V6Tczstjw3',
  'zOk3M7LY8N80n6oflek3M7LY8N8zpNzOy2PDfNJ+qH5XpNzOy2PDfM6Tczstjw3zSe/6Q052JflXlV9H8du8ni6PX06J6+mW4l+r',
  'CvPyst+OvGZGdRV1FUSKirqK6Qais60rOnBRUVdRTg0i4zjSKqLi4iLgUouNIzi4FKNIuM4uBSjSLjOLgUo/MgPU4ACQAkAJACT9',
  'Fxv2uz3NP2VUcb9rs9zT9lV5f13TUVVRTgprOrqKcFFRV1FOCioq6zpwSLiFRtTSLjOLgUo0i4zi5QpRpFxnKuUK2NJVyspVyhSf',
  'nAHpcQBIASAEgBJ+g49922u5Psq1HHvu213J9nbXn/XZyoqrUWlBTUVVqKcYmoqqinBTUVVScEdjhExpKuM5VyjSjSVcrKVcoUo0',
  'lXKzlVKFjY1lVKzlVKNhPAAd3IASAEgBIASe7sX3fa7k+yrWexfd9vuT7KtcMdXLUWu2ptKC5ai121FpxjlRaq1FpwU1woQgDU7K',
  'uVnFSsrWsqpWcqpQsJrKqVlKuUbGtJVSs5VShjXigOoACQAkAJACT2dm+w2+7Ps7az2b7Db7s+yrXPDLU2lqLSkYWptLU2lIxy1F',
  'rtqTggDWACQSgkuVUrKVco2NaSqlZyqlHCaSqlZSqlHGvLAIQBIASAEgBJ6m1fY6O7HbUbV9lo7sLRwnbU2lqbSkYWptLUWlIJaA',
  'TABIASAEh2AxKioDCdioAteaAmACQAkAJACT79v+Vo+kdoJrlTQKCmuA1gA1ACT/2Q==',
]
