/** Width of an element as it is laid out, px. */
import { useEffect, useRef, useState } from 'preact/hooks';

export function useWidth(first: number) {
  const ref = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => setWidth(Math.max(200, Math.round(element.clientWidth))));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { ref, width };
}
