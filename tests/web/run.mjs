// usage: node tests/web/run.mjs [FILE…] [--only TEXT] [--at-once N]
// Runs tests/web/*.test.mjs, or the given ones, against build/site. --only: names containing TEXT.
// --at-once: how many at the same time, instead of one for each core.
import { readdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { runTests } from "./harness.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const given = process.argv.slice(2);
const option = (name) => {
    const at = given.indexOf(name);
    return at >= 0 ? given.splice(at, 2)[1] : undefined;
};
const only = option("--only");
const atOnce = option("--at-once");
const files = given.length ? given.map((file) => resolve(file))
    : readdirSync(here).filter((name) => name.endsWith(".test.mjs")).sort().map((name) => join(here, name));
for (const file of files) await import(pathToFileURL(file));
const { passed, failed } = await runTests({ only, atOnce: atOnce && Number(atOnce) });
console.log(`web: ${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
