/**
 * Lays a fragment of a plan over a whole one: entries of the same name are replaced, new ones are added to their section, sections on one line
 * and lines without entries are replaced whole.
 */
export function layOver(base: string, fragment: string): string {
  const sections = cut(base);
  for (const over of cut(fragment)) {
    const at = sections.findIndex((s) => s.key === over.key);
    const under = sections[at];
    if (under === undefined) sections.push(over);
    else if (over.entries.length === 0 || under.entries.length === 0) sections[at] = over;
    else {
      const entries = [...under.entries];
      for (const entry of over.entries) {
        const same = entries.findIndex((e) => e.key === entry.key);
        if (same >= 0) entries[same] = entry;
        else entries.push(entry);
      }
      sections[at] = { ...under, entries };
    }
  }
  return sections.map((s) => [s.head, ...s.entries.flatMap((e) => e.lines)].join("\n")).join("\n") + "\n";
}

interface Section {
  readonly key: string;
  readonly head: string;
  readonly entries: readonly { readonly key: string; readonly lines: readonly string[] }[];
}

/** Sections begin at the margin, entries two blanks in; what is deeper belongs to its entry. */
function cut(text: string): Section[] {
  const sections: { key: string; head: string; entries: { key: string; lines: string[] }[] }[] = [];
  for (const line of text.split("\n")) {
    if (line.trim() === "" || line.trim().startsWith("#")) continue;
    const section = /^(\S[^:]*):/.exec(line);
    const entry = /^ {2}(\S[^:]*):/.exec(line);
    if (section !== null) sections.push({ key: section[1] ?? "", head: line, entries: [] });
    else if (entry !== null) sections.at(-1)?.entries.push({ key: entry[1] ?? "", lines: [line] });
    else sections.at(-1)?.entries.at(-1)?.lines.push(line);
  }
  return sections;
}
