import tseslint from "typescript-eslint";

/** Rooms whose results must be the same bits everywhere, with no clock, chance or process of their own. */
const pureRooms = ["src/numeric/**/*.ts", "src/domain/**/*.ts", "src/simulation/**/*.ts"];

/** Functions whose last digits differ between engines. */
const unportable = [
  "pow",
  "exp",
  "expm1",
  "log",
  "log1p",
  "log2",
  "log10",
  "sin",
  "cos",
  "tan",
  "asin",
  "acos",
  "atan",
  "atan2",
  "sinh",
  "cosh",
  "tanh",
  "asinh",
  "acosh",
  "atanh",
  "cbrt",
  "hypot",
  "random",
];

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
        ...unportable.map((property) => ({
          object: "Math",
          property,
          message: "differs between engines or draws chance: use the functions of src/numeric",
        })),
        { object: "Date", property: "now", message: "a pure room has no clock" },
      ],
      "no-restricted-syntax": [
        "error",
        { selector: "BinaryExpression[operator='**']", message: "** differs between engines: multiply" },
        { selector: "AssignmentExpression[operator='**=']", message: "** differs between engines: multiply" },
        { selector: "NewExpression[callee.name='Date']", message: "a pure room has no clock" },
      ],
      "no-restricted-globals": ["error", "process", "performance", "setTimeout", "setInterval", "crypto"],
    },
  },
);
