/** The only two ways out of the program into another one: the system's browser, and its programs for files. */
import { basename, join } from 'node:path'
import { app, shell, type BrowserWindow } from 'electron'
import {
  done,
  failed,
  notWebAddress,
  type HostAnswer,
  type HostArgument,
  type HostResult,
} from '../shared/host.ts'
import { linkScheme } from '../shared/intake/handed-over.ts'
import { maybeOpenable, notOpenable } from '../shared/intake/openable.ts'
import { maybeWebAddress } from '../shared/markdown/addresses.ts'
import { emptyOriginals, writeOriginal } from './originals.ts'
import { toSentence } from './sentences.ts'

/** Opens an http or https address in the system's browser. */
export async function openAddress(
  _window: BrowserWindow,
  argument: HostArgument<'openAddress'>,
): Promise<HostResult<null>> {
  const address = maybeWebAddress(argument.address)
  if (address === undefined) return failed('not opened', notWebAddress)
  try {
    await shell.openExternal(address)
    return done(null)
  } catch {
    const sentence =
      'The system opened no browser for this address. Nothing was changed. Copy the address and open it there yourself.'
    return failed('not opened', sentence)
  }
}

/** Shows bytes in the system's own program for their kind, when that kind cannot run. */
export async function openOriginal(
  _window: BrowserWindow,
  { bytes, name }: HostArgument<'openOriginal'>,
): Promise<HostResult<HostAnswer<'openOriginal'>>> {
  const openable = maybeOpenable(bytes)
  if (openable === undefined) return failed('unsupported', notOpenable(name))
  try {
    const path = await writeOriginal(originalsFolder(), bytes, name, openable)
    const refusal = await shell.openPath(path)
    return refusal === ''
      ? done({ kind: 'opened', name: basename(path) })
      : failed('not opened', noProgram(name))
  } catch (error) {
    return failed('not written', toSentence(`“${name}” could not be handed to another program`, error))
  }
}

/** Removes what former runs opened. Call once, after it is sure that no other run is under way. */
export function forgetOriginals(): void {
  void emptyOriginals(originalsFolder())
}

/** Names this program as the one for addresses of our scheme. Only an installed one, since a build moves away. */
export function offerLinkScheme(): void {
  if (app.isPackaged) app.setAsDefaultProtocolClient(linkScheme)
}

function originalsFolder(): string {
  return join(app.getPath('userData'), 'opened-originals')
}

function noProgram(name: string): string {
  return `The system has no program that opens “${name}”. The original is kept and unchanged. Read its text here, or save it to a file.`
}
