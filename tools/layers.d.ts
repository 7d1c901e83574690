/** Of layers.js, which the dependency checker reads without a compiler. */
export declare const layers: readonly string[];
export declare const doors: readonly string[];
