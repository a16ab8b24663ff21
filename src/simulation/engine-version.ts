/** Version of the engine's arithmetic: raised whenever the same document, seed and draws would give another result. */
export const engineVersion = "2.0.0";
