/** Stands in the bundle for the unpacker of WOFF2 fonts, see `build.ts`. */
const decompress = (): never => {
  throw new Error("no WOFF2 font was expected");
};

export { decompress as default };
