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

/** No longer address is opened, in UTF-16 code units. */
export const longestAddress = 8000

/** No more files and addresses than this arrive at once; the rest is refused with a sentence. */
export const largestArrival = 500

/** No more bytes of a followed log travel at once (256 KiB); the next come when the screen asks again. */
export const largestLogPiece = 256 * 1024

/** No more bytes of a written-out store travel at once (8 MiB). */
export const largestStorePiece = 8 * 1024 * 1024

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
const lab = v.pipe(v.string(), v.uuid('a lab is named by its id'))
const token = v.pipe(v.string(), v.regex(/^[0-9a-f]{32}$/, 'a token is 32 hexadecimal digits'))
/** Where a file lies below a folder: segments with `/` between them on every system, the file's own name last. */
const relativeName = v.pipe(v.string(), v.minLength(1), v.maxLength(4096))

/** A file that may be read on demand, by its token, in the window that was given it and until its page is loaded anew. */
const chosenFile = v.strictObject({
  token,
  /**
   * The file's own name, or within a chosen folder its relative name (`rack/fans.html`). Of a folder that arrived, its own
   * name stands before that.
   */
  name: v.string(),
  /** In bytes, when it was found. */
  size: v.number(),
  /** Milliseconds since 1970-01-01T00:00:00Z; 0 where it is not known. */
  modifiedMs: v.number(),
})

/** A file of a drop folder. Its name, size and modification time together tell one state of it from another. */
const dropFile = v.strictObject({ name: v.string(), size: v.number(), modifiedMs: v.number() })

/** A log of a terminal that the person named for a lab. Kept by the shell, since it is a place of this machine. */
const knownLog = v.strictObject({
  log: token,
  name: v.string(),
  path: v.string(),
  /** The name of the timing file that the person named with it. */
  timing: v.nullable(v.string()),
})

/** Which of the two files a piece is of. */
const ofLog = v.picklist(['log', 'timing'])

/** What happened to a followed log, in the order in which it happened. */
const logPiece = v.variant('kind', [
  v.strictObject({
    kind: v.literal('bytes'),
    of: ofLog,
    /** Where they stand in the file, in bytes; of a pipe, how many came before. */
    offset: v.number(),
    bytes,
    /** Milliseconds since 1970-01-01T00:00:00Z; null: they stood there before it was followed. */
    arrivedMs: v.nullable(v.number()),
  }),
  /** What stood there when following began has all been given. */
  v.strictObject({ kind: v.literal('caught up'), of: ofLog }),
  v.strictObject({
    kind: v.literal('changed'),
    of: ofLog,
    /**
     * After `truncated` and `replaced` the file begins anew, at offset 0. `deleted` and `unreadable` go on by themselves
     * with `back` or `replaced`. `writer gone`: of a pipe, until another program writes to it.
     */
    how: v.picklist(['truncated', 'replaced', 'deleted', 'unreadable', 'back', 'writer gone']),
    /** For the person. */
    sentence: v.string(),
    atMs: v.number(),
  }),
])

/** A file of the written-out store: one lab, or the registry. */
const storeFileName = v.pipe(v.string(), v.regex(/^[a-z0-9][a-z0-9.-]{0,99}$/, 'a plain name in lower case'))
const storeFile = v.strictObject({
  name: storeFileName,
  size: v.pipe(v.number(), v.integer(), v.minValue(0)),
  sha256: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/, 'a SHA-256 is 64 hexadecimal digits')),
})
const offset = v.pipe(v.number(), v.integer(), v.minValue(0))

/** Something that came from outside while no dialog was open. */
const arrival = v.variant('kind', [
  /** Named on the command line, or opened with this program in the system's file browser; read with `readChosenFile`. */
  v.strictObject({ kind: v.literal('file'), file: chosenFile }),
  /** From an address of our link scheme. `title` is one line of at most 200 code points, `selection` plain text; '' is none. */
  v.strictObject({
    kind: v.literal('handed over'),
    address: v.string(),
    title: v.string(),
    selection: v.string(),
  }),
  /** What could not be taken, and why, for the person. */
  v.strictObject({ kind: v.literal('refused'), sentence: v.string() }),
])

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
  /**
   * Lets the person choose any number of files without reading them. `accept` empty: all kinds. Each is read with
   * `readChosenFile` when its turn comes, so that hundreds of megabytes are never in memory at once.
   */
  chooseFiles: {
    argument: v.strictObject({ accept: v.array(extension), multiple: v.boolean() }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('chosen'), files: v.array(chosenFile) }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /**
   * Lets the person choose a folder, and finds the files in it and below it, ordered by name. Hidden files and folders and
   * symbolic links are skipped. It stops at 5,000 files and 20 folders within each other; `notes` says in a sentence each what was left out.
   */
  chooseFolder: {
    argument: v.undefined(),
    answer: v.variant('kind', [
      v.strictObject({
        kind: v.literal('chosen'),
        /** The folder's own name. */
        name: v.string(),
        files: v.array(chosenFile),
        notes: v.array(v.string()),
      }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /**
   * Reads a file that was chosen or that arrived. Its name comes back as it was given with the token. A file that has gone,
   * and a token that this window was not given, are the failure `not read`.
   */
  readChosenFile: { argument: v.strictObject({ token, limitBytes }), answer: openedFile },
  /** Reads a part of such a file, at most `length` bytes from `offset` on; none behind its end. For files of any size. */
  readChosenPart: {
    argument: v.strictObject({
      token,
      offset: v.pipe(v.number(), v.integer(), v.minValue(0)),
      length: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(16 * 1024 * 1024)),
    }),
    answer: v.strictObject({ bytes }),
  },

  /**
   * Lets the person name the lab's drop folder, in the place of one named before. Kept by the shell, not in the lab: it is a
   * place of this machine. Several labs may have the same folder.
   */
  chooseDropFolder: {
    argument: v.strictObject({ lab }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('chosen'), name: v.string(), path: v.string() }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /**
   * The lab's drop folder, and whether it can be read at the moment. From this call on (and from `chooseDropFolder` and
   * `listDropFolder`) changes of it are told by `onDropFolderChanged`.
   */
  findDropFolder: {
    argument: v.strictObject({ lab }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('none') }),
      v.strictObject({
        kind: v.literal('folder'),
        name: v.string(),
        path: v.string(),
        isReachable: v.boolean(),
      }),
    ]),
  },
  /** Forgets the lab's drop folder; the folder and its files stay as they are. To be called too when a lab is deleted. */
  leaveDropFolder: { argument: v.strictObject({ lab }), answer: v.null() },
  /**
   * The complete files in the drop folder and in the folders directly in it, ordered by name. Left out: hidden files, what
   * browsers are still writing, empty files, symbolic links, the folder of pictures that a browser puts beside a saved page,
   * and files whose size or time changed within the last second – when there are such, the answer waits that second once.
   * What is still unfinished then is counted, and told by the event when it is done. Taking each file once is the lab's
   * matter: by name, size and modification time here, and by digest where the files are kept.
   */
  listDropFolder: {
    argument: v.strictObject({ lab }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('none') }),
      /** The folder is not there at the moment. It stays named, and the event tells when it is back. */
      v.strictObject({ kind: v.literal('unreachable'), path: v.string(), sentence: v.string() }),
      v.strictObject({
        kind: v.literal('listed'),
        files: v.array(dropFile),
        unfinished: v.number(),
        /** Sentences about what was left out for its number. */
        notes: v.array(v.string()),
      }),
    ]),
  },
  /**
   * Reads one file of the drop folder by its relative name, also one that the list leaves out (a picture beside a saved
   * page). A name that leads out of the folder, also through a symbolic link, is the failure `not read`.
   */
  readDropFile: { argument: v.strictObject({ lab, name: relativeName, limitBytes }), answer: openedFile },

  /**
   * Lets the person name a log of a terminal to be followed for a lab: a regular file or a named pipe, never a device. It
   * stays named until it is forgotten. With `timingOf`, the timing file of that log instead.
   */
  chooseLog: {
    argument: v.strictObject({ lab, timingOf: v.nullable(token) }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('chosen'), log: knownLog }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
  /** The lab's logs, in the order in which they were named. None is read by this. */
  listLogs: { argument: v.strictObject({ lab }), answer: v.array(knownLog) },
  /** Forgets a log, and ends following it. Its file stays as it is. */
  forgetLog: { argument: v.strictObject({ lab, log: token }), answer: v.null() },
  /**
   * Begins to follow a named log. What stands in it comes first. One window follows a log at a time: another is the failure
   * `not read`; the same window begins anew. It ends with `stopFollowing`, and when the page goes.
   */
  followLog: {
    argument: v.strictObject({
      lab,
      log: token,
      /** Leaves out what was read before, where it is still the same file. Then its timing file is left out too. */
      after: v.nullable(v.strictObject({ identity: v.string(), offset: v.number() })),
    }),
    answer: v.strictObject({
      following: token,
      kind: v.picklist(['file', 'pipe']),
      /** In bytes, when following began: how much of it is earlier. */
      size: v.number(),
      /** Tells the file from one that later has its name. */
      identity: v.string(),
      /** Where reading begins. */
      offset: v.number(),
    }),
  },
  /**
   * What came to a followed log since the last call, at most `largestLogPiece` bytes of it; waits until there is something.
   * Nothing is read ahead, so whoever is slow fills no memory.
   */
  readFollowed: {
    argument: v.strictObject({ following: token }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('read'), pieces: v.array(logPiece) }),
      v.strictObject({ kind: v.literal('stopped') }),
    ]),
  },
  /** Ends following; a `readFollowed` that waits is answered with `stopped`. */
  stopFollowing: { argument: v.strictObject({ following: token }), answer: v.null() },

  /**
   * Gives what has arrived since the last call, oldest first, and forgets it: files and `stillroom:` addresses from the
   * command line, from a further start of the program and from the system. At most `largestArrival` at a time. To be called
   * once when a window can take something in, and at every `onArrived`. Empty in a browser.
   */
  takeArrivals: { argument: v.undefined(), answer: v.array(arrival) },

  /**
   * Opens an http or https address in the system's browser. To be called only after a click on an address that was shown
   * whole. Any other scheme is the failure `not opened`.
   */
  openAddress: {
    argument: v.strictObject({ address: v.pipe(v.string(), v.maxLength(longestAddress)) }),
    answer: v.null(),
  },
  /**
   * Shows original bytes in the system's own program for their kind, which is told by the bytes alone: PDF, PNG, JPEG, GIF,
   * WebP, plain text in UTF-8 (always as `.txt`). `name` only helps the person to know the file again. Everything else –
   * pages, SVG, programs, scripts, office files, archives – is the failure `unsupported`. A browser hands the file out as a
   * download instead: `downloaded`, with the name that it has there.
   */
  openOriginal: {
    argument: v.strictObject({ bytes, name: v.pipe(v.string(), v.maxLength(1000)) }),
    answer: v.strictObject({ kind: v.picklist(['opened', 'downloaded']), name: v.string() }),
  },
  /** Puts plain text on the clipboard. */
  copyText: { argument: v.strictObject({ text: v.string() }), answer: v.null() },
  /**
   * What is on the clipboard, when the person presses “Paste”: HTML and plain text, empty where there is none, and the bytes
   * of a PNG picture. In Electron the shell reads it, so that the page itself may not.
   */
  readClipboard: {
    argument: v.undefined(),
    answer: v.strictObject({ html: v.string(), text: v.string(), picture: v.nullable(bytes) }),
  },
  /**
   * The web address of the page that the HTML on the clipboard was copied from; null where the clipboard names none. A browser
   * tells a page nothing of it, so there it is always null.
   */
  findClipboardAddress: {
    argument: v.undefined(),
    answer: v.strictObject({ address: v.nullable(v.string()) }),
  },
  /**
   * Begins to rewrite the store: all labs are written out, the files of the page's storage are deleted, and what was written
   * out is read back. The failure `not written` where a second window is open. From now on no window opens; the page is to
   * be loaded anew, so that nothing is open in it, and finds `begun`.
   */
  beginRewriting: { argument: v.undefined(), answer: v.null() },
  /** Writes a piece of a file of the written-out store. The offset 0 begins the file anew. */
  writeRewriting: {
    argument: v.strictObject({
      name: storeFileName,
      offset,
      bytes: v.pipe(
        bytes,
        v.check((value) => value.byteLength <= largestStorePiece, 'a piece is at most largestStorePiece'),
      ),
    }),
    answer: v.null(),
  },
  /**
   * Says that all is written out. The shell reads it back and compares it with the digests; where one differs, that is the
   * failure `not written`, and nothing was changed. Else the program ends and starts anew, without the old store.
   */
  finishRewriting: { argument: v.strictObject({ files: v.array(storeFile) }), answer: v.null() },
  /** Gives rewriting up while the old store is still whole. What was written out is deleted. */
  leaveRewriting: { argument: v.undefined(), answer: v.null() },
  /** Where rewriting stands. To be asked before anything of the store is opened. Always `none` in a browser. */
  findRewriting: {
    argument: v.undefined(),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('none') }),
      /** The store is to be written out by this window. */
      v.strictObject({ kind: v.literal('begun') }),
      /** The old store is gone, and what was written out is to be read back. */
      v.strictObject({ kind: v.literal('waiting'), files: v.array(storeFile) }),
      /** What happened in an earlier run; told once. */
      v.strictObject({ kind: v.literal('told'), isDone: v.boolean(), sentence: v.string() }),
    ]),
  },
  /** Reads a part of a file of the written-out store, at most `largestStorePiece`. */
  readRewriting: {
    argument: v.strictObject({
      name: storeFileName,
      offset,
      length: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(largestStorePiece)),
    }),
    answer: v.strictObject({ bytes }),
  },
  /** Says that all was read back and compared. The written-out store is deleted. Answers with what the person is told. */
  endRewriting: { argument: v.undefined(), answer: v.strictObject({ sentence: v.string() }) },
  /**
   * Prints the page as it is now, for paper: on a printer that the person chooses, or as a PDF in a place that the person
   * chooses. `paper` and page numbers are the shell's; in a browser its own dialog asks for all of it, and whether it printed
   * is not told to the page: `handed over`.
   */
  printPage: {
    argument: v.strictObject({
      to: v.picklist(['printer', 'PDF']),
      paper: v.picklist(['A4', 'Letter']),
      suggestedName,
    }),
    answer: v.variant('kind', [
      v.strictObject({ kind: v.literal('printed') }),
      v.strictObject({ kind: v.literal('handed over') }),
      v.strictObject({ kind: v.literal('saved'), name: v.string() }),
      v.strictObject({ kind: v.literal('cancelled') }),
    ]),
  },
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
export type ChosenFile = v.InferOutput<typeof chosenFile>
export type DropFile = v.InferOutput<typeof dropFile>
export type KnownLog = v.InferOutput<typeof knownLog>
export type LogPiece = v.InferOutput<typeof logPiece>
export type StoreFile = v.InferOutput<typeof storeFile>
export type Arrival = v.InferOutput<typeof arrival>

/** The names of all calls, for whoever builds one end of the contract. */
export const hostCallNames = Object.keys(hostCalls) as HostCallName[]

const hostFailure = v.strictObject({
  ok: v.literal(false),
  /** `unsupported`: this host cannot do it at all. `not written`, `not read`, `not copied`, `not printed`: the machine refused. */
  code: v.picklist(['unsupported', 'not written', 'not read', 'not copied', 'not opened', 'not printed']),
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

/** What the screen holds: the calls, and the events from the host. Each `on…` returns the way to stop listening. */
export interface Host extends HostFunctions {
  /**
   * Asks to be called before the window closes, to save what is being typed. Electron waits for the promise, at most
   * `closeWaitMs`; a browser does not wait, so begin the write at once.
   */
  onCloseRequested(listener: () => Promise<void>): () => void
  /** Told to one window, the one in front or else the first: something waits for `takeArrivals`. Never in a browser. */
  onArrived(listener: () => void): () => void
  /**
   * Told to every window, with the lab's id: the complete files of its drop folder are others than before, or the folder
   * has gone or come back. Only for folders that were asked about in this run. Never in a browser.
   */
  onDropFolderChanged(listener: (lab: string) => void): () => void
}

/** What the preload script puts on the page's window in Electron. Nothing in it is trusted by its type. */
export interface HostBridge extends Readonly<Record<HostCallName, (argument?: unknown) => Promise<unknown>>> {
  onCloseRequested(listener: () => void): void
  onArrived(listener: () => void): void
  onDropFolderChanged(listener: (lab: unknown) => void): void
}

/** The names of what the bridge tells by itself. */
export const hostEventNames = ['onCloseRequested', 'onArrived', 'onDropFolderChanged'] as const

/** The channel that a call travels on between the page and the shell. */
export function channelOf(name: HostCallName): string {
  return `stillroom:${name}`
}
/** The channel of the event `close requested`. */
export const closeRequestedChannel = 'stillroom:close requested'
/** The channel of the event `arrived`. */
export const arrivedChannel = 'stillroom:arrived'
/** The channel of the event `drop folder changed`; its one value is the lab's id. */
export const dropFolderChangedChannel = 'stillroom:drop folder changed'

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

/** The sentence about a file that could not be read. */
export function unreadFile(name: string): string {
  return `“${name}” could not be read. Nothing in the lab was changed. See whether the file is still there.`
}

/** The sentence about a token that this window does not hold, or no longer. */
export const notHeldFile =
  'This file is not open to this window any more, because its page was loaded anew. Nothing in the lab was changed. Choose the file again.'

/** The sentence about a log that this window does not follow, or no longer. */
export const notFollowed =
  'This log is not followed by this window any more. What was read from it is kept. Follow it again to go on.'

/** The sentence about an address that is none of the web's. */
export const notWebAddress =
  'This address was not opened: only http and https addresses are. Nothing was changed. Copy it if it is meant for another program.'

/** A size in bytes as a person reads it, in megabytes of 1,000,000 bytes (IEC 80000-13), rounded up to a tenth. */
export function toMegabytes(size: number): string {
  return `${(Math.ceil(size / 100_000) / 10).toFixed(1)} MB`
}
