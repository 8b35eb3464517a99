/** `npm test`: everything that needs nothing but Node. The oracle (compiler, simulator), the browser and the package have suites of their own. */
import { configDefaults, defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    exclude: [...configDefaults.exclude, "test/**/*.oracle.test.ts", "test/editor/**"],
    testTimeout: 30_000,
  },
});
