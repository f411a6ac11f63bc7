/**
 * Silence: the program reaches no other machine. Chromium has services that call out by themselves (dictionaries,
 * component updates, reports); they are switched off one by one, no host name resolves, and every request that is not
 * for our own scheme is refused.
 */
import { app, type Session } from 'electron'
import { pageOrigin } from '../shared/host.ts'

/** Switches Chromium's own traffic off. Call before the app is ready; later it has no effect. */
export function silenceChromium(): void {
  for (const name of [
    'disable-background-networking',
    'disable-component-update',
    'disable-domain-reliability',
    'disable-sync',
    'disable-breakpad',
    'no-pings',
    'no-default-browser-check',
  ]) {
    app.commandLine.appendSwitch(name)
  }
  app.commandLine.appendSwitch('host-resolver-rules', 'MAP * ~NOTFOUND')
  app.commandLine.appendSwitch(
    'disable-features',
    'MediaRouter,OptimizationHints,CertificateTransparencyComponentUpdater',
  )
}

/** Says whether the page may load an address: our own scheme, what the page itself made, the developer tools. */
export function isOwnAddress(address: string, isDevelopment: boolean): boolean {
  if (address.startsWith(`${pageOrigin}/`) || address.startsWith(`blob:${pageOrigin}/`)) return true
  return address.startsWith('data:') || (isDevelopment && address.startsWith('devtools://'))
}

/** Refuses every request of a session that is not our own, and keeps its spell checker from fetching dictionaries. */
export function silenceSession(session: Session): void {
  const isDevelopment = !app.isPackaged
  session.webRequest.onBeforeRequest((request, answer) => {
    answer({ cancel: !isOwnAddress(request.url, isDevelopment) })
  })
  session.setSpellCheckerEnabled(false)
  session.setSpellCheckerDictionaryDownloadURL(`${pageOrigin}/no-dictionaries/`)
}
