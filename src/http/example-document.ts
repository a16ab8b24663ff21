import smallest from "../../seed/examples/smallest.json" with { type: "json" };

/** A small document, shown in the API's documentation. */
export const exampleDocument = smallest;
