// Runs replay_hash natively and in WebAssembly and compares the two line by line. Each line is
// "name hash"; a name that only one of them prints is a failure too.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "../..");

function run(what, command, args) {
    const result = spawnSync(command, args, { encoding: "utf8", maxBuffer: 1 << 26, cwd: root });
    if (result.status !== 0) {
        const said = (result.stderr || String(result.error)).slice(0, 2000);
        console.log(`  ${what}: expected exit code 0, found ${result.status ?? result.signal}: ${said}`);
        console.log("same: 0 passed, 1 failed");
        process.exit(1);
    }
    const lines = result.stdout.trim().split("\n").filter((line) => line);
    return new Map(lines.map((line) => {
        const at = line.lastIndexOf(" ");
        return [line.slice(0, at), line.slice(at + 1)];
    }));
}

const native = run("native", join(root, "build/native/tests/replay_hash"), []);
const again = run("native again", join(root, "build/native/tests/replay_hash"), []);
// Without its fetch, which the program would try on a path.
const web = run("WebAssembly", "node",
    ["--no-experimental-fetch", join(root, "build/web/tests/replay_hash.js")]);

let passed = 0;
let failed = 0;
for (const name of new Set([...native.keys(), ...web.keys()])) {
    const found = { native: native.get(name), again: again.get(name), web: web.get(name) };
    if (found.native !== undefined && found.native === found.again && found.native === found.web) {
        ++passed;
        continue;
    }
    ++failed;
    console.log(`  FAILED  ${name}: expected one hash, found natively ${found.native}, ` +
        `natively again ${found.again}, in WebAssembly ${found.web}`);
}
if (passed + failed === 0) {
    ++failed;
    console.log("  FAILED  expected at least one line from replay_hash, found none");
}
console.log(`same: ${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
