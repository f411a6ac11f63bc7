/** What a page in our windows may not do: leave, open windows, embed, download, or use devices. */
import { app, type Session, type WebContents } from 'electron'
import { pageOrigin } from '../shared/host.ts'
import { pageAddress } from './page.ts'

/** The one permission that our page needs: that the system does not clear its storage when the disk runs low. */
const granted = new Set<string>(['persistent-storage'])

/** Puts every web contents that is ever made under the rules. Call before the first window. */
export function guardContents(): void {
  app.on('web-contents-created', (_event, contents) => guardNavigation(contents))
}

function guardNavigation(contents: WebContents): void {
  // WebRTC goes past request rules and the page's policy: without a proxy it may now send nothing at all.
  contents.setWebRTCIPHandlingPolicy('disable_non_proxied_udp')
  contents.setWindowOpenHandler(() => ({ action: 'deny' }))
  contents.on('will-attach-webview', (event) => event.preventDefault())
  contents.on('will-redirect', (event) => event.preventDefault())
  contents.on('will-navigate', (event, address) => {
    if (address.split('#')[0] !== pageAddress) event.preventDefault()
  })
  contents.on('will-frame-navigate', (event) => {
    if (!event.isMainFrame) event.preventDefault()
  })
}

/** Denies a session's permissions, devices and downloads. */
export function guardSession(session: Session): void {
  session.setPermissionCheckHandler((_contents, permission, origin) => isGranted(permission, origin))
  session.setPermissionRequestHandler((contents, permission, answer) =>
    answer(isGranted(permission, contents.getURL())),
  )
  session.setDevicePermissionHandler(() => false)
  session.on('will-download', (event) => event.preventDefault())
  for (const event of ['select-hid-device', 'select-serial-port', 'select-usb-device'] as const) {
    session.on(event as 'select-hid-device', (selection) => selection.preventDefault())
  }
}

function isGranted(permission: string, address: string): boolean {
  return granted.has(permission) && (address === pageOrigin || address.startsWith(pageAddress))
}
