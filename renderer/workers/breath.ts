/** A breath between two pieces of work in a worker: messages that came meanwhile are heard. */

/** @returns waits for the end of the task; a timer would wait for 4 ms each time (HTML Standard, timer nesting) */
export function createBreath(): () => Promise<void> {
  const { port1, port2 } = new MessageChannel()
  const waiting: (() => void)[] = []
  port1.onmessage = () => waiting.shift()?.()
  return () =>
    new Promise((resolve) => {
      waiting.push(resolve)
      port2.postMessage(null)
    })
}
