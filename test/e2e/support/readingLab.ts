/** A lab file with sources to be read: one read twice, a paged one, a picture, a text, and pages that would like to act. */
import { createHash } from 'node:crypto'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { deflateSync } from 'node:zlib'
import { crc32 } from 'node:zlib'
import { strToU8, zipSync } from 'fflate'
import { labToFiles, type Tools } from '../../../shared/archive/labFile.ts'
import { addProject, addSource, readAgain, type SourceInput } from '../../../shared/lab/acts.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'

const tools: Tools = {
  sha256: (bytes) => Promise.resolve(createHash('sha256').update(bytes).digest('hex')),
  encode: (text) => strToU8(text),
  decode: (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes),
}

/** Anything that the pages below manage to do goes here. 192.0.2.0/24: RFC 5737. */
export const elsewhere = 'http://192.0.2.66'

const fans = (speed: number) =>
  Array.from(
    { length: 14 },
    (_, at) =>
      `| fan ${at + 1} | ${speed + at * 40} | 1200 | intake, left side of the rack, behind the grille | checked in the first week of each month |`,
  ).join('\n')

const guide = (threshold: number, extra: string) => `# Cooling the rack

The rack stands in the dome’s north corner and draws air **from the left**. Written for the logger’s four machines. Look at [the weather page](https://weather.example.org/now?station=4) before you open the door, or at [https://mast.example.org/](https://evil.example.com/login), or ask by [mail](mailto:dome@example.org).

## Thresholds

Fans go to full speed at ${threshold} °C. Below that they follow the intake. The value stands in \`/etc/fans.conf\`:

\`\`\`sh
# speeds in turns per minute
fan_min=600
fan_full=1800

systemctl restart fans.service
\`\`\`

> Never reach into the rack while the fans turn. Switch the feed off and lock it first.

### What each fan does

| Fan | Now | Least | Where | Remark |
| :-- | --: | --: | :-- | :-- |
${fans(threshold * 20)}

## Care

1. Take the filter out.
2. Wash it in lukewarm water. It must dry for
   a whole day.
   - Never use compressed air on the fans: blades break.
   - A second filter lies in the drawer.
3. Put it back.

- [x] bought new filters
- [ ] measured the noise

${extra}## The picture

Where the sensors sit: ![three sensors in a row](${pictureAddress()})

A picture that did not come along: ![the old rack](https://weather.example.org/old.png)

---

Last words: 5 \\* 4 &amp; *more*.
`

function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type), data])
  const head = Buffer.alloc(4)
  head.writeUInt32BE(data.length)
  const foot = Buffer.alloc(4)
  foot.writeUInt32BE(crc32(body))
  return Buffer.concat([head, body, foot])
}

/** A PNG of coloured stripes (PNG, Third Edition). */
export function stripes(width: number, height: number): Uint8Array {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([8, 2, 0, 0, 0], 8)
  const rows = Buffer.alloc((width * 3 + 1) * height)
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      rows.set([(x * 2) & 255, (y * 3) & 255, 120], y * (width * 3 + 1) + 1 + x * 3)
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(rows)),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function pictureAddress(): string {
  return `data:image/png;base64,${Buffer.from(stripes(180, 60)).toString('base64')}`
}

const page = (body: string, head = '') =>
  `<!DOCTYPE html><html><head><title>Kept page</title>${head}</head><body>${body}</body></html>`

/** Each way to act or to reach out that the HTML standard knows; `__acted` tells whether one did. */
export const hostilePage = page(
  `<h1 style="color: darkgreen; border-bottom: 3px solid darkgreen">Fan controller</h1>
<p class="lead">Words of the page.</p>
<script>parent.__acted = 'script'; top.document.title = 'acted'</script>
<img src="${elsewhere}/picture.png" onerror="parent.__acted = 'onerror'" alt="the controller">
<svg width="60" height="20" onload="parent.__acted = 'svg onload'"><rect width="60" height="20" fill="teal"/><script>parent.__acted = 'svg script'</script></svg>
<a href="javascript:parent.__acted = 'link'">a link that runs</a>
<a href="${elsewhere}/away" target="_top">a link that leads away</a>
<iframe srcdoc="<script>parent.parent.__acted = 'srcdoc'</script>"></iframe>
<object data="${elsewhere}/object"></object><embed src="${elsewhere}/embed">
<form action="${elsewhere}/form"><input name="a" autofocus onfocus="parent.__acted = 'onfocus'"><button>send</button></form>
<div style="background: url(${elsewhere}/style.png)">styled</div>
<video src="${elsewhere}/film" autoplay></video><audio src="${elsewhere}/sound" autoplay></audio>
<table><tr><th>Fan</th><th>Speed</th></tr><tr><td>1</td><td>600</td></tr></table>`,
  `<meta http-equiv="refresh" content="0; url=${elsewhere}/refresh"><base href="${elsewhere}/">
<link rel="stylesheet" href="${elsewhere}/sheet.css"><link rel="prefetch" href="${elsewhere}/prefetch"><link rel="icon" href="${elsewhere}/icon.png">
<style>@import url("${elsewhere}/imported.css"); body { font-family: sans-serif; background: url(${elsewhere}/body.png) } .lead { color: rgb(10, 120, 30) } @font-face { font-family: x; src: url(${elsewhere}/font.woff) } p { font-family: x, sans-serif }</style>`,
)

const manualPages = Array.from(
  { length: 40 },
  (_, at) =>
    `## Chapter ${at + 1}\n\nThe ${at + 1}th part of the manual of the weather logger. Mind what stands here about sensor ${at + 1}: its cable is ${at + 2} m long.\n\n${'More about it follows, at some length, so that a page is filled. '.repeat(6)}\n\n`,
)

/** Writes the lab file and gives its path. */
export async function writeReadingLab(): Promise<string> {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Cool the rack', aim: '', status: 'under way' })
  await lab.committer.commit(change)
  const capture = async (text: string, original: string | Uint8Array, mediaType: string) => {
    const bytes = typeof original === 'string' ? strToU8(original) : original
    return { text, bytes, sha256: await tools.sha256(bytes), mediaType }
  }
  const add = async (input: Omit<SourceInput, 'projects' | 'wayIn'> & Partial<SourceInput>) => {
    const added = addSource(around, { wayIn: 'dropped', projects: [project.id], ...input })
    await lab.committer.commit(added.change)
    return added
  }
  const first = await add({
    title: 'Cooling the rack',
    address: 'https://rack.example.org/cooling?utm_source=list',
    kind: 'page',
    author: 'Ada Wright',
    dated: '2026-02-11',
    tags: ['cooling', 'rack'],
    capture: {
      ...(await capture(guide(31, ''), page('<h1>Cooling the rack</h1><p>At 31 °C.</p>'), 'text/html')),
      saved: '2026-02-20T10:00:00.000+01:00' as never,
      notes: ['Left out: 2 embedded pages, 1 drawing.'],
    },
  })
  const again = readAgain(around, first.source, first.capture, {
    kind: 'page',
    wayIn: 'drop folder',
    capture: await capture(
      guide(34, '## Noise\n\nAt full speed the rack is 61 dB loud. Close the door of the dome.\n\n'),
      hostilePage,
      'text/html',
    ),
  })
  await lab.committer.commit(again.change)
  let start = 0
  const pages = manualPages.map((text, at) => {
    const place = { start, label: at < 2 ? ['i', 'ii'][at]! : String(at - 1) }
    start += text.length
    return place
  })
  await add({
    title: 'Manual of the weather logger',
    address: null,
    kind: 'pdf',
    capture: { ...(await capture(manualPages.join(''), '%PDF-1.7\n%no pages\n', 'application/pdf')), pages },
  })
  await add({
    title: 'Rack from the left',
    address: null,
    kind: 'picture',
    remark: 'The rack from the left, its door open.',
    capture: await capture('', stripes(1600, 900), 'image/png'),
  })
  await add({
    title: 'Log of the fans',
    address: null,
    kind: 'text',
    capture: await capture(
      '2026-03-01 600\n2026-03-02 <b>640</b>\n',
      '2026-03-01 600\r\n2026-03-02 <b>640</b>\r\n',
      'text/plain',
    ),
  })
  await add({
    title: 'Weather now',
    address: 'https://weather.example.org/now?station=4',
    kind: 'link',
    capture: null,
  })
  const files = await labToFiles(
    { id: lab.id, name: 'Dome', created: around.clock.now() },
    await lab.dump(),
    around.clock.now(),
    tools,
  )
  const path = join(mkdtempSync(join(tmpdir(), 'stillroom-reading-')), 'dome.stillroom.zip')
  writeFileSync(path, zipSync(Object.fromEntries(files)))
  return path
}
