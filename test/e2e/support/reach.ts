import type { Page } from '@playwright/test'

/** RFC 5737: an address for documentation, which no machine has. */
export const elsewhere = 'http://192.0.2.1'

/** Makes the page reach out in every way that content can. */
export async function tryEverything(page: Page): Promise<void> {
  await page.evaluate(async (address) => {
    document.body.insertAdjacentHTML(
      'beforeend',
      `<img src="${address}/a.png"><video src="${address}/v"></video>`,
    )
    document.body.insertAdjacentHTML(
      'beforeend',
      `<a id="away" ping="${address}/ping" href="${address}/away">away</a>`,
    )
    document.body.insertAdjacentHTML(
      'beforeend',
      `<div style="background: url(${address}/f.png)">styled</div>`,
    )
    for (const link of [
      `prefetch" href="${address}/b`,
      'preconnect" href="https://weather.example.org',
      'dns-prefetch" href="//time.example.org',
    ]) {
      document.head.insertAdjacentHTML('beforeend', `<link rel="${link}">`)
    }
    const area = document.createElement('textarea')
    area.spellcheck = true
    area.value = 'teh wether loger'
    document.body.append(area)
    area.focus()
    await fetch(`${address}/c`).catch(() => undefined)
    navigator.sendBeacon(`${address}/d`)
    try {
      const connection = new RTCPeerConnection({ iceServers: [{ urls: `stun:${address.slice(7)}:3478` }] })
      connection.createDataChannel('x')
      await connection.setLocalDescription(await connection.createOffer())
    } catch {
      // Refused at once is as good.
    }
    await fetch('/index.html')
  }, elsewhere)
  await page.waitForTimeout(3000)
}
