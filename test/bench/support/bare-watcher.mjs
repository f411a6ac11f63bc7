/** A bare file watcher: what it costs at least to have the bytes that were appended to the files named on the command line. */
import { watch } from 'node:fs'
import { open } from 'node:fs/promises'

for (const path of process.argv.slice(2)) {
  const file = await open(path)
  let offset = 0
  let isReading = false
  let isAgain = false
  const read = async () => {
    isAgain = true
    if (isReading) return
    isReading = true
    while (isAgain) {
      isAgain = false
      const { bytesRead, buffer } = await file.read(Buffer.alloc(65536), 0, 65536, offset)
      offset += bytesRead
      const now = performance.timeOrigin + performance.now()
      for (const line of buffer.toString('utf8', 0, bytesRead).split('\n'))
        if (line !== '') process.send([line, now])
    }
    isReading = false
  }
  watch(path, () => void read())
}
