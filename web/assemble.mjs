// Puts build/site together: the page shell of web/, the program of build/web, the notices. Every
// file that the page loads carries the build's hash in its address, so that a cache never mixes two
// builds. A file is written only when its content changes. Beside each file that gets smaller by it
// lie FILE.br and FILE.gz, for web/run and for any web host that serves such.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { encodings } from "./serve.mjs";
import { notices } from "./notices.mjs";

const web = dirname(fileURLToPath(import.meta.url));
const built = join(web, "../build/web/src/host");
const site = join(web, "../build/site");

const files = new Map();
for (const name of ["loomwright.js", "loomwright.wasm"]) files.set(name, readFileSync(join(built, name)));
for (const name of ["loader.js", "icon.svg", "manifest.webmanifest"]) files.set(name, readFileSync(join(web, name)));
files.set("notices.txt", Buffer.from(notices(join(web, "../build/deps"))));

const shell = ["index.html", "sw.js"].map((name) => [name, readFileSync(join(web, name), "utf8")]);
const hash = createHash("sha256");
for (const [name, bytes] of [...files, ...shell]) hash.update(name).update("\0").update(bytes).update("\0");
const build = hash.digest("hex").slice(0, 16);

const list = ["./", ...["loader.js", "loomwright.js", "loomwright.wasm"].map((name) => `${name}?v=${build}`),
    "icon.svg", "manifest.webmanifest", "notices.txt"];
for (const [name, text] of shell) {
    files.set(name, Buffer.from(text
        .replaceAll("@BUILD@", build)
        .replaceAll("@FILES@", JSON.stringify(list))
        .replaceAll("@WASM_BYTES@", String(files.get("loomwright.wasm").length))));
}

const compressors = {
    br: (bytes) => brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } }),
    gzip: (bytes) => gzipSync(bytes, { level: 9 }),
};

function writeCompressed(path, bytes) {
    for (const [encoding, ending] of Object.entries(encodings)) {
        const smaller = compressors[encoding](bytes);
        if (smaller.length < bytes.length) writeFileSync(path + ending, smaller);
        else rmSync(path + ending, { force: true });
    }
}

const isOurs = (name) => files.has(name) ||
    Object.values(encodings).some((ending) => name.endsWith(ending) && files.has(name.slice(0, -ending.length)));

mkdirSync(site, { recursive: true });
for (const name of readdirSync(site)) if (!isOurs(name)) rmSync(join(site, name), { recursive: true });
for (const [name, bytes] of files) {
    const path = join(site, name);
    // Every file of ours gets smaller by gzip.
    if (existsSync(path + encodings.gzip) && existsSync(path) && readFileSync(path).equals(bytes)) continue;
    // First, so that a build that is stopped here begins with this file again.
    writeCompressed(path, bytes);
    writeFileSync(path, bytes);
}
const total = [...files.values()].reduce((sum, bytes) => sum + bytes.length, 0);
console.log(`build/site is complete: build ${build}, ${Math.round(total / 1000)} kB in ${files.size} files`);
