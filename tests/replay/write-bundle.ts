import { writeFileSync } from "node:fs";
import { bundleReplay } from "./bundle-replay.ts";

// Run with the file to write.
writeFileSync(process.argv[2]!, await bundleReplay());
