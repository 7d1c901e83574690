export type { Diagnostic, Level, Span, Told } from "./diagnostic.ts";
