import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["test/**/*.test.ts"],
    setupFiles: ["test/seeded.ts"],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // Its own choice is one less than there are cores: on two, half of the machine would stand idle.
    maxWorkers: availableParallelism(),
    reporters: ["default"],
  },
});
