/** @xterm/headless 6 looks for `requestIdleCallback` in `window`, which a worker does not have. To be imported first. */
Object.assign(globalThis, { window: globalThis })
export {}
