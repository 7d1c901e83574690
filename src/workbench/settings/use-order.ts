import { useEffect } from "preact/hooks";

/** Hears what was ordered in the ask field and is shown by a part of the page: `units`, `keys`. */
export function useOrder(what: "units" | "keys", show: () => void): void {
  useEffect(() => {
    const listen = (event: Event): void => {
      if (event instanceof CustomEvent && event.detail === what) show();
    };
    addEventListener("bench-show", listen);
    return () => {
      removeEventListener("bench-show", listen);
    };
  }, [what]);
}
