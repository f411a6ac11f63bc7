/** The order of lists of which only the rows near the view are in the page: what is not there stands above or below. */
import { useEffect } from 'react'

/** The lists that tell their order. */
export type OrderedList = 'sources' | 'journal'

const orders = new Map<OrderedList, ReadonlyMap<string, number>>()

/** Tells the order of a list while it is shown. @param indexes of its rows, by the id of what they show */
export function useToldOrder(list: OrderedList, indexes: ReadonlyMap<string, number>): void {
  useEffect(() => {
    orders.set(list, indexes)
    return () => {
      if (orders.get(list) === indexes) orders.delete(list)
    }
  }, [list, indexes])
}

/** The index of a thing's row; undefined where the list does not show it. */
export function indexInList(list: OrderedList, id: string): number | undefined {
  return orders.get(list)?.get(id)
}
