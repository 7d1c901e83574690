import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["dist/", "out/", "node_modules/", "src/reference/", "coverage/"] },
  ...tseslint.configs.strictTypeChecked,
  {
    languageOptions: { parserOptions: { project: "./tsconfig.json" } },
    rules: {
      // Numbers are the product: they stand in template text on purpose.
      "@typescript-eslint/restrict-template-expressions": ["error", { allowNumber: true }],
      "@typescript-eslint/no-non-null-assertion": "error",
      "@typescript-eslint/switch-exhaustiveness-check": ["error", { considerDefaultExhaustiveForUnions: true }],
      "@typescript-eslint/no-unnecessary-condition": "off",
      // There is no enum, and no class with state of its own: to look for them is a third of the time that all rules take.
      "@typescript-eslint/no-unsafe-class-instance-assignment": "off",
      "@typescript-eslint/no-unsafe-enum-assignment": "off",
      "no-restricted-exports": ["error", { restrictDefaultExports: { direct: true } }],
    },
  },
  { files: ["**/*.js", "**/*.mjs"], ...tseslint.configs.disableTypeChecked },
  { files: ["*.js", "*.ts", ".dependency-cruiser.js"], rules: { "no-restricted-exports": "off" } },
);
