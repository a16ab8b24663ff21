import tseslint from "typescript-eslint";

/** Rooms whose results must be the same bits everywhere, with no clock, chance or process of their own. */
const pureRooms = ["src/numeric/**/*.ts", "src/domain/**/*.ts", "src/simulation/**/*.ts"];

/** What of Math is exact, and so the same everywhere: all the rest differs in its last digits between engines, or is chance. */
const exact = [
  "abs",
  "ceil",
  "clz32",
  "floor",
  "fround",
  "imul",
  "max",
  "min",
  "round",
  "sign",
  "sqrt",
  "trunc",
];
const constants = ["E", "LN10", "LN2", "LOG10E", "LOG2E", "PI", "SQRT1_2", "SQRT2"];
const portable = [...exact, ...constants].join("|");
const notPortable = "differs between engines or draws chance: use the functions of src/numeric";

export default tseslint.config(
  { ignores: ["node_modules/", "coverage/"] },
  ...tseslint.configs.strict,
  {
    rules: {
      "@typescript-eslint/no-non-null-assertion": "off",
      "@typescript-eslint/consistent-type-imports": "error",
      eqeqeq: "error",
      "no-console": "error",
    },
  },
  {
    files: ["src/cli.ts", "src/server.ts", "src/http/write-openapi.ts", "tests/bench/**/*.ts"],
    rules: { "no-console": "off" },
  },
  {
    files: pureRooms,
    rules: {
      "no-restricted-properties": [
        "error",
        { object: "Date", property: "now", message: "a pure room has no clock" },
      ],
      "no-restricted-syntax": [
        "error",
        {
          selector: `MemberExpression[object.name='Math']:not([computed=false][property.name=/^(${portable})$/])`,
          message: `this part of Math ${notPortable}`,
        },
        {
          selector: ":not(MemberExpression[object.name='Math']) > Identifier[name='Math']",
          message: `Math as a whole hides what of it is used, and most of it ${notPortable}`,
        },
        { selector: "BinaryExpression[operator='**']", message: "** differs between engines: multiply" },
        { selector: "AssignmentExpression[operator='**=']", message: "** differs between engines: multiply" },
        {
          selector: "MemberExpression[property.name=/^(toLocale|localeCompare$)/]",
          message: "depends on the machine's language",
        },
        { selector: "NewExpression[callee.name='Date']", message: "a pure room has no clock" },
      ],
      "no-restricted-globals": [
        "error",
        "globalThis",
        "Intl",
        "process",
        "performance",
        "setTimeout",
        "setInterval",
        "crypto",
      ],
    },
  },
);
