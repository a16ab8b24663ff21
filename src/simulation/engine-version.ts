/** Version of the engine's arithmetic: raised whenever the same document, seed and draws would give another result. */
export const engineVersion = "1.0.0";
