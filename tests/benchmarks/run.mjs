// Runs every benchmark and writes build/bench.json. A benchmark is a *.mjs here that exports
// measure(), or a program bench_* from a *.cpp here that prints the same: a list (as JSON) of
// {name, value, unit, against}. `against` is what the value is held against, in the same unit.
import { spawnSync } from "node:child_process";
import { readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const programs = join(root, "build/native/tests");

const rows = [];
for (const name of readdirSync(here).sort()) {
    if (name.endsWith(".mjs") && name !== "run.mjs") {
        const { measure } = await import(pathToFileURL(join(here, name)));
        rows.push(...(await measure()));
    } else if (name.endsWith(".cpp")) {
        const program = join(programs, "bench_" + name.slice(0, -4));
        const result = spawnSync(program, [], { encoding: "utf8", cwd: root });
        if (result.status !== 0) {
            console.error(`${program}: expected exit code 0, found ${result.status ?? result.error}`);
            process.exit(1);
        }
        rows.push(...JSON.parse(result.stdout));
    }
}
const table = rows.map((row) => ({ ...row, ratio: Number((row.value / row.against).toPrecision(4)) }));
for (const { name, value, unit, against, ratio } of table) {
    console.log(`${name.padEnd(24)} ${String(value).padStart(12)} ${unit.padEnd(6)} against ${against}: ${ratio}`);
}
writeFileSync(join(root, "build/bench.json"), JSON.stringify(table, null, 4) + "\n");
console.log("written to build/bench.json");
