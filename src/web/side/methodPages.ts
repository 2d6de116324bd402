/** The page under docs/ that tells how a quantity is found. */
const pages: Readonly<Record<string, string>> = {};

export const methodPage = (quantity: string): string | null =>
  Object.hasOwn(pages, quantity) ? pages[quantity] : null;
