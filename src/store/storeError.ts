/** Thrown when a store cannot be opened or read; the message is one sentence for the person who started the program. */
export class StoreError extends Error {}
