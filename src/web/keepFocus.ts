/**
 * The focus never falls off the page: where the control that had it is gone, what is next has it. In a row of a list or in an
 * open fold that is its first control; else the next move of the page, else its heading.
 */

const CONTROLS = 'a[href], button:not(:disabled), input:not(:disabled), select, textarea, summary';
const PLACES = 'li, tr, details[open]';

const visible = (found: Iterable<HTMLElement>): HTMLElement | undefined =>
  [...found].find((one) => one.checkVisibility());

/** @param around what was around the control, the nearest first */
function nextFrom(main: HTMLElement, around: readonly Element[]): HTMLElement | null {
  const place = around.find((one) => one.isConnected && main.contains(one) && one.matches(PLACES));
  const inside = place === undefined ? undefined : visible(place.querySelectorAll<HTMLElement>(CONTROLS));
  const move = visible(main.querySelectorAll<HTMLElement>('.button.main:not(:disabled)'));
  return inside ?? move?.querySelector('input') ?? move ?? main.querySelector<HTMLElement>('h2');
}

/** Whether nothing has the focus. */
const fallen = (): boolean => document.activeElement === null || document.activeElement === document.body;

/** @returns ends it */
export function keepFocus(main: HTMLElement): () => void {
  let last: { readonly control: Element; readonly around: readonly Element[] } | null = null;
  const hear = ({ target }: FocusEvent): void => {
    if (!(target instanceof Element)) return;
    const around: Element[] = [];
    for (let one = target.parentElement; one !== null && one !== main; one = one.parentElement) around.push(one);
    last = { control: target, around };
  };
  const leave = (): void => {
    const left = last;
    // a press beside every control lets go of it; a control that is taken away is gone by then
    setTimeout(() => {
      if (left !== null && left === last && left.control.isConnected && fallen()) last = null;
    });
  };
  const watch = new MutationObserver(() => {
    if (last === null || last.control.isConnected || !fallen()) return;
    const { around } = last;
    last = null;
    // what the page itself does about it comes first
    setTimeout(() => {
      if (fallen()) nextFrom(main, around)?.focus({ preventScroll: true });
    });
  });
  main.addEventListener('focusin', hear);
  main.addEventListener('focusout', leave);
  watch.observe(main, { childList: true, subtree: true });
  return () => {
    watch.disconnect();
    main.removeEventListener('focusin', hear);
    main.removeEventListener('focusout', leave);
  };
}
