/** Thrown when a store cannot be opened or read; the message is one sentence for the person who started the program. */
export class StoreError extends Error {}

/** What is asked to be kept is nothing that every store can hold. */
export class Unkeepable extends StoreError {
  constructor() {
    super('A text holds the character NUL (U+0000), which no store keeps; nothing was saved.');
  }
}

/**
 * The database does not answer. `saved` is null where it is not known whether a change was kept: the answer to its last word
 * got lost. Asked again with the same ids, a change is made once.
 */
export class StoreAway extends StoreError {
  readonly saved: false | null;

  constructor(saved: false | null) {
    super(
      saved === null
        ? 'The database went away while it was saving: it is not known whether this was saved. Sent again, it is kept once.'
        : 'The database of the store does not answer; nothing was saved by this. Try again.',
    );
    this.saved = saved;
  }
}
