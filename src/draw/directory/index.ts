export { drawDirectories } from "./draw-directories.ts";
export { readBoards } from "./read-boards.ts";
