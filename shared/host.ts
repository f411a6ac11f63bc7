/**
 * The contract between the screen and what hosts it: an Electron window or a plain browser window.
 *
 * Every call stands once in `hostCalls` with the shape of its argument and of its answer. Both ends derive their types
 * from that map and check every payload against it: the Electron shell checks arguments, the screen checks answers.
 * A call answers with a `HostResult`. An expected failure is a value with a sentence for the person; a payload of the
 * wrong shape is a bug and throws; a dialog that the person closed is the answer `cancelled`, which is not shown.
 */
import * as v from 'valibot'

/** The scheme and host under which the Electron shell serves the page. One origin, so one lab store. */
export const pageOrigin = 'app://stillroom'

/** No single file larger than this is read or written through the host, in bytes (512 MiB). */
export const largestFileBytes = 512 * 1024 * 1024

/** How long the host waits for the screen to save what is being typed before a window closes, in milliseconds. */
export const closeWaitMs = 5000

/** Says whether a value is a Uint8Array of any realm: bytes cross from one JavaScript world to another here. */
export function isBytes(value: unknown): value is Uint8Array {
  return Object.prototype.toString.call(value) === '[object Uint8Array]'
}

const bytes = v.pipe(
  v.custom<Uint8Array>(isBytes, 'bytes are a Uint8Array'),
  v.check((value) => value.byteLength <= largestFileBytes, 'the bytes are more than a file may hold'),
)

/** Says whether a text can be a file's name on Linux, macOS and Windows alike: no separators, no control characters. */
export function isFileName(name: string): boolean {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  return /^[^/\\:*?"<>|\u0000-\u001f\u007f]{1,200}$/.test(name) && !/^[. ]|[. ]$/.test(name)
}

/** The nearest text that is a file's name: forbidden characters become hyphens, and the length is bounded. */
export function toFileName(text: string, otherwise = 'untitled'): string {
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  const plain = text.replace(/[/\\:*?"<>|\u0000-\u001f\u007f]+/g, '-')
  const name = Array.from(plain)
    .slice(0, 90)
    .join('')
    .replace(/^[. ]+|[. ]+$/g, '')
  return isFileName(name) ? name : otherwise
}

const suggestedName = v.pipe(v.string(), v.check(isFileName, 'a suggested name is a plain file name'))
const mediaType = v.pipe(
  v.string(),
  v.regex(/^[a-z]+\/[a-z0-9.+-]+(; ?charset=utf-8)?$/, 'a media type as in RFC 6838'),
)
const extension = v.pipe(
  v.string(),
  v.regex(/^\.[a-z0-9]{1,12}$/, 'a file ending with its dot, in lower case'),
)
const limitBytes = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(largestFileBytes))

const openedFile = v.variant('kind', [
  v.strictObject({ kind: v.literal('read'), name: v.string(), bytes }),
  v.strictObject({
    kind: v.literal('refused'),
    name: v.string(),
    size: v.number(),
    limit: v.number(),
    sentence: v.string(),
  }),
])

const hostCalls = {
  /** Which host this is. */
  describe: {
    argument: v.undefined(),
    answer: v.strictObject({
      kind: v.picklist(['electron', 'browser']),
      version: v.string(),
      platform: v.string(),
    }),
  },
  /** Offers bytes to be kept under a name and in a place that the person chooses (in a browser: its download folder). */
  saveFile: {
    argument: v.strictObject({ suggestedName, mediaType, bytes }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('saved'), name: v.string() }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /** Lets the person choose files. One larger than `limitBytes` is not read but answered with its name and size. */
  openFiles: {
    argument: v.strictObject({ accept: v.array(extension), multiple: v.boolean(), limitBytes }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('opened'), files: v.array(openedFile) }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /** Puts plain text on the clipboard. */
  copyText: { argument: v.strictObject({ text: v.string() }), answer: v.null() },
  /** Opens another window onto the same labs. */
  newWindow: { argument: v.undefined(), answer: v.null() },
  /** Said by the screen once everything typed is saved, in answer to the event `close requested`. */
  readyToClose: { argument: v.undefined(), answer: v.null() },
} as const

export type HostCallName = keyof typeof hostCalls
export type HostArgument<N extends HostCallName> = v.InferOutput<(typeof hostCalls)[N]['argument']>
export type HostAnswer<N extends HostCallName> = v.InferOutput<(typeof hostCalls)[N]['answer']>
export type HostDescription = HostAnswer<'describe'>
export type OpenedFile = v.InferOutput<typeof openedFile>

/** The names of all calls, for whoever builds one end of the contract. */
export const hostCallNames = Object.keys(hostCalls) as HostCallName[]

const hostFailure = v.strictObject({
  ok: v.literal(false),
  /** `unsupported`: this host cannot do it at all. `not written`, `not read`, `not copied`: the machine refused. */
  code: v.picklist(['unsupported', 'not written', 'not read', 'not copied', 'not opened']),
  /** What happened, what is safe and what to do, for the person. */
  sentence: v.string(),
})
export type HostFailure = v.InferOutput<typeof hostFailure>
export type HostResult<T> = { readonly ok: true; readonly value: T } | HostFailure

type Parameters<N extends HostCallName> = HostArgument<N> extends undefined ? [] : [argument: HostArgument<N>]
/** The calls as functions; what a host implements and what the screen calls. */
export type HostFunctions = {
  readonly [N in HostCallName]: (...argument: Parameters<N>) => Promise<HostResult<HostAnswer<N>>>
}

/** What the screen holds: the calls, and the one event from the host. */
export interface Host extends HostFunctions {
  /**
   * Asks to be called before the window closes, to save what is being typed. Electron waits for the promise, at most
   * `closeWaitMs`; a browser does not wait, so begin the write at once. Returns the way to stop listening.
   */
  onCloseRequested(listener: () => Promise<void>): () => void
}

/** What the preload script puts on the page's window in Electron. Nothing in it is trusted by its type. */
export interface HostBridge extends Readonly<Record<HostCallName, (argument?: unknown) => Promise<unknown>>> {
  onCloseRequested(listener: () => void): void
}

/** The channel that a call travels on between the page and the shell. */
export function channelOf(name: HostCallName): string {
  return `stillroom:${name}`
}
/** The channel of the event `close requested`. */
export const closeRequestedChannel = 'stillroom:close requested'

/** Checks what came in as a call's argument. @throws when it does not have the shape of the contract */
export function checkArgument<N extends HostCallName>(name: N, argument: unknown): HostArgument<N> {
  return checkShape(hostCalls[name].argument, argument, `the argument of ${name}`) as HostArgument<N>
}

/** Checks what came back from a call. @throws when it does not have the shape of the contract */
export function checkResult<N extends HostCallName>(name: N, result: unknown): HostResult<HostAnswer<N>> {
  const success = v.strictObject({ ok: v.literal(true), value: hostCalls[name].answer })
  return checkShape(v.variant('ok', [success, hostFailure]), result, `the answer of ${name}`) as HostResult<
    HostAnswer<N>
  >
}

function checkShape(schema: v.GenericSchema, value: unknown, what: string): unknown {
  const checked = v.safeParse(schema, value, { abortEarly: true })
  if (checked.success) return checked.output
  const issue = checked.issues[0]
  const path = v.getDotPath(issue)
  throw new TypeError(`${what} is not as agreed${path === null ? '' : ` at ${path}`}: ${issue.message}`)
}

/** A success. */
export function done<T>(value: T): HostResult<T> {
  return { ok: true, value }
}

/** An expected failure, with its sentence for the person. */
export function failed(code: HostFailure['code'], sentence: string): HostFailure {
  return { ok: false, code, sentence }
}

/** The answer for a file that is larger than was asked for. Sizes in bytes; the sentence names them in megabytes. */
export function refusedFile(name: string, size: number, limit: number): OpenedFile {
  const sentence =
    `“${name}” holds ${toMegabytes(size)}, more than the ${toMegabytes(limit)} that can be read here. ` +
    'It was not read and nothing was changed. Split it, or keep only the part that you need.'
  return { kind: 'refused', name, size, limit, sentence }
}

/** A size in bytes as a person reads it, in megabytes of 1,000,000 bytes (IEC 80000-13), rounded up to a tenth. */
export function toMegabytes(size: number): string {
  return `${(Math.ceil(size / 100_000) / 10).toFixed(1)} MB`
}
