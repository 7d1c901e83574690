import { useEffect, useState } from "preact/hooks";

/** 700 px at the usual size of type; larger type reaches it earlier. */
const NARROW = "(max-width: 43.75em)";

/** Whether tables give way to cards. */
export function useNarrow(): boolean {
  const [isNarrow, setNarrow] = useState(() => matchMedia(NARROW).matches);
  useEffect(() => {
    const list = matchMedia(NARROW);
    const follow = (): void => {
      setNarrow(list.matches);
    };
    list.addEventListener("change", follow);
    return () => {
      list.removeEventListener("change", follow);
    };
  }, []);
  return isNarrow;
}
