import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";
import { root } from "./paths.mjs";

const core = [
  "base",
  "harness-model",
  "import-export",
  "connectivity",
  "simulation",
  "job-records",
  "measurement-safety",
  "drawing",
  "diagnosis",
].concat(["training", "application", "library"]);

// Rules that need types cost time, so they are chosen one by one.
const typedRules = {
  "@typescript-eslint/await-thenable": "error",
  "@typescript-eslint/no-base-to-string": "error",
  "@typescript-eslint/no-deprecated": "error",
  "@typescript-eslint/no-floating-promises": "error",
  "@typescript-eslint/no-misused-promises": "error",
  "@typescript-eslint/no-unnecessary-condition": ["error", { allowConstantLoopConditions: "only-allowed-literals" }],
  "@typescript-eslint/no-unnecessary-type-assertion": "error",
  "@typescript-eslint/no-unsafe-argument": "error",
  "@typescript-eslint/no-unsafe-assignment": "error",
  "@typescript-eslint/no-unsafe-call": "error",
  "@typescript-eslint/no-unsafe-member-access": "error",
  "@typescript-eslint/no-unsafe-return": "error",
  "@typescript-eslint/only-throw-error": "error",
  "@typescript-eslint/require-array-sort-compare": "error",
  "@typescript-eslint/switch-exhaustiveness-check": ["error", { considerDefaultExhaustiveForUnions: false }],
};

const houseRules = {
  eqeqeq: "error",
  "no-param-reassign": "error",
  "prefer-const": "error",
  "max-params": ["error", 4],
  "max-lines": ["error", 500],
  "@typescript-eslint/consistent-type-imports": "error",
  "@typescript-eslint/no-explicit-any": "error",
  "@typescript-eslint/no-non-null-assertion": "error",
  "@typescript-eslint/no-unused-vars": ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }],
  "@typescript-eslint/ban-ts-comment": ["error", { "ts-expect-error": "allow-with-description", "ts-ignore": true }],
};

export default ts.config(
  { ignores: ["node_modules/**", "dist/**", "data-schemas/**", "demo-harness/**"] },
  { linterOptions: { reportUnusedDisableDirectives: "error" } },
  js.configs.recommended,
  {
    files: ["**/*.ts", "**/*.svelte", "**/*.svelte.ts"],
    ignores: [".ci/**"],
    extends: [ts.configs.strict],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: root, extraFileExtensions: [".svelte"] },
    },
    rules: { ...houseRules, ...typedRules },
  },
  {
    files: ["src/**/*.ts"],
    rules: { "max-lines-per-function": ["error", { max: 60, skipComments: true }] },
  },
  {
    files: core.map((room) => `src/${room}/**/*.ts`),
    rules: { "no-console": "error" },
  },
  {
    files: ["src/ui/**"],
    languageOptions: { globals: globals.browser },
    rules: {
      "no-console": "error",
      // A component is one function to the rule; its own budget is in tests/structure/sizes.test.ts.
      "max-lines-per-function": "off",
    },
  },
  // After the block above, because both name a parser for components and the last one counts.
  ...svelte.configs.recommended,
  {
    files: ["**/*.svelte", "**/*.svelte.ts"],
    languageOptions: {
      parserOptions: { projectService: true, extraFileExtensions: [".svelte"], parser: ts.parser },
    },
  },
  {
    // Scripts of the house: plain JavaScript for Node, and configuration that its tool compiles itself.
    files: [".ci/**"],
    languageOptions: { globals: globals.node },
  },
  { files: [".ci/**/*.ts"], extends: [ts.configs.strict, ts.configs.disableTypeChecked], rules: houseRules },
);
