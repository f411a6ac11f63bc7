/** How much of a manual page or an info text is read. */

/** A page's source, in bytes when unpacked. The longest pages of a distribution have two to three million. */
export const maxSourceBytes = 4 * 1024 * 1024

/** A page or an info text as a terminal shows it. What is longer is taken in as the plain text that it is. */
export const maxShownBytes = 8 * 1024 * 1024

/** Nodes of such a text's tree; with more it is taken in as plain text too. */
export const maxShownNodes = 200_000
