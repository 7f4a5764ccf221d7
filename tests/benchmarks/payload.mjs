// What a first visit downloads, with fonts and exercises, compressed as a web host would.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const site = join(dirname(fileURLToPath(import.meta.url)), "../../build/site");
const visited = ["index.html", "loader.js", "loomwright.js", "loomwright.wasm", "icon.svg",
    "manifest.webmanifest"];

export function measure() {
    let gzip = 0;
    let brotli = 0;
    for (const name of visited) {
        const bytes = readFileSync(join(site, name));
        gzip += gzipSync(bytes, { level: 9 }).length;
        brotli += brotliCompressSync(bytes, {
            params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length },
        }).length;
    }
    return [
        { name: "payload_gzip", value: gzip, unit: "byte", against: 500000 },
        { name: "payload_brotli", value: brotli, unit: "byte", against: 500000 },
    ];
}
