/** For tests: waiting for a fact, not for a time. */

/** how long anything may take on a machine that has much else to do, ms */
const PATIENCE_MS = 120_000;

/** @throws Error that says what did not come */
export async function until(what: string, ready: () => Promise<boolean> | boolean): Promise<void> {
  for (const end = Date.now() + PATIENCE_MS; !(await ready()); ) {
    if (Date.now() > end) throw new Error(`waited in vain until ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}
