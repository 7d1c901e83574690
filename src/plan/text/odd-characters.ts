import type { Diagnostic } from "../../diagnostic.ts";
import { codeOf } from "./visible.ts";
import { tell, type WordId } from "./words.ts";

/** Control characters (not tab and line ends), line ends that only some editors know, half characters, invisible ones. */
const ODD =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028\u2029\u00ad\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ufeff]|\r(?!\n)|\p{Cs}/gu;
/** Finds all of these and halves of whole characters too: many times faster, and most plans have none. */
const PERHAPS_ODD =
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028\u2029\u00ad\u200b\u200e\u200f\u202a-\u202e\u2060-\u206f\ud800-\udfff\ufeff]|\r(?!\n)/g;

/**
 * Says which characters of a plan cannot be read, or make it look like something else than it is.
 *
 * @param from offset to start at, behind a byte order mark
 * @returns the text with each unreadable character replaced by the replacement character, so that all offsets stay; and
 * one message for each kind of character, with its first places
 */
export function refuseOddCharacters(text: string, from: number): { readable: string; diagnostics: Diagnostic[] } {
  PERHAPS_ODD.lastIndex = from;
  if (!PERHAPS_ODD.test(text)) return { readable: text, diagnostics: [] };
  const places = new Map<string, number[]>();
  const parts: string[] = [];
  let at = 0;
  ODD.lastIndex = from;
  for (let found = ODD.exec(text); found !== null; found = ODD.exec(text)) {
    const [sign] = found;
    const before = places.get(sign);
    if (before === undefined) places.set(sign, [found.index]);
    else if (before.length < MOST_PLACES) before.push(found.index);
    if (idOf(sign) !== "plan/invisible-character") {
      parts.push(text.slice(at, found.index), "\ufffd");
      at = found.index + 1;
    }
  }
  const diagnostics = [...places].map(
    ([sign, starts]) =>
    tell(idOf(sign), starts.map((start) => [start, start + 1]), "", { code: codeOf(sign) }), // prettier-ignore
  );
  return { readable: parts.join("") + text.slice(at), diagnostics };
}

const MOST_PLACES = 20;

function idOf(sign: string): WordId {
  if ("\u0085\u2028\u2029\r".includes(sign)) return "plan/line-break";
  if (/\p{Cs}/u.test(sign)) return "plan/broken-character";
  // In the middle of a text a byte order mark starts it anew for some readers.
  if (/[\u00ad\u200b-\u206f]/.test(sign)) return "plan/invisible-character";
  return "plan/control-character";
}
