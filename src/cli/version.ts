/** Put in by the build; absent when the sources run as they are. */
declare const WIREWORTHY_VERSION: string | undefined;

/** Version of this program, as `package.json` has it. */
export const version: string = typeof WIREWORTHY_VERSION === "string" ? WIREWORTHY_VERSION : "0.0.0-source";
