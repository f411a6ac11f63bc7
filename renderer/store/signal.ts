/** Something that happens now and then, told to whoever listens at the moment. */
export interface Signal<T> {
  emit(value: T): void
  /** @returns how to stop listening */
  on(listen: (value: T) => void): () => void
}

export function createSignal<T>(): Signal<T> {
  const listeners = new Set<(value: T) => void>()
  return {
    emit: (value) => listeners.forEach((listen) => listen(value)),
    on: (listen) => {
      listeners.add(listen)
      return () => listeners.delete(listen)
    },
  }
}
