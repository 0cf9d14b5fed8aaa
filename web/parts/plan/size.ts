import type { RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

export interface Size {
  width: number;
  height: number;
}

/** The size of an element in CSS pixels, followed as it changes; so that lines and letters keep theirs at every zoom. */
export function useSize(ref: RefObject<Element | null>): Size | undefined {
  const [size, setSize] = useState<Size>();
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = () => {
      const { width, height } = element.getBoundingClientRect();
      setSize((before) => (before?.width === width && before.height === height ? before : { width, height }));
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, [ref]);
  return size;
}
