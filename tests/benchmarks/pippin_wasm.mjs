// The benchmark of pippin.cpp in WebAssembly, under node: linked against the rooms as the page has
// them, so that it is their speed that is measured.
import { spawnSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");
const web = join(root, "build/web");
const program = join(root, "build/pippin_wasm.cjs");

function run(command, args) {
    const env = { NODE_PATH: "/usr/share/nodejs", ...process.env };
    const result = spawnSync(command, args, { encoding: "utf8", cwd: root, env });
    if (result.status !== 0) {
        console.error(`${command} ${args.join(" ")}: expected exit code 0, found ` +
            `${result.status ?? result.error}\n${result.stderr}`);
        process.exit(1);
    }
    return result.stdout;
}

export async function measure() {
    mkdirSync(join(root, "build"), { recursive: true });
    run("em++", ["-std=c++17", "-Oz", "-ffp-contract=off", "-fno-exceptions", "-fno-rtti",
        "-Isrc", "-I" + join(web, "generated"), "tests/benchmarks/pippin.cpp",
        join(web, "src/bench/libloom_bench.a"), join(web, "src/circuit/libloom_circuit.a"),
        join(web, "assets/libloom_assets.a"), "-sENVIRONMENT=node", "-sEXIT_RUNTIME=1",
        "-sALLOW_MEMORY_GROWTH=1", "-o", program]);
    return JSON.parse(run("node", ["--no-experimental-fetch", program]));
}
