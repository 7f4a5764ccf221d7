// The third-party notices that are shipped with the page, from the packages' own files.
import { readFileSync } from "node:fs";
import { join } from "node:path";

const doc = (name) => `/usr/share/doc/${name}/copyright`;
const licence = (name) => `/usr/share/common-licenses/${name}`;

// The first comment of a header, without its stars.
function headComment(path) {
    const text = readFileSync(path, "utf8");
    return text.slice(text.indexOf("/*") + 2, text.indexOf("*/")).replace(/^ \* ?/gm, "").trim();
}

// From the end of a single-header library: what follows `mark`.
function tail(path, mark) {
    const text = readFileSync(path, "utf8");
    const from = text.lastIndexOf(mark);
    return text.slice(from).replace(/\*\/\s*$/, "").trim();
}

// Of what Debian records of the compiler package, the parts on what it links into a program.
function linkedIn(path) {
    const linked = /^(\*$|src\/|system\/lib\/(libc|libcxx|libcxxabi|libunwind|compiler-rt|dlmalloc|emmalloc|gl|html5)\b)/;
    const stanzas = readFileSync(path, "utf8").trim().split(/\n\s*\n/);
    const kept = [];
    const licences = new Set();
    for (const stanza of stanzas) {
        const files = /^Files:((?:.*\n)(?: .*\n)*)/.exec(stanza);
        if (!files) continue;
        const names = files[1].split("\n").map((name) => name.trim()).filter((name) => linked.test(name));
        if (!names.length) continue;
        kept.push("Files:\n " + names.join("\n ") + "\n" + stanza.slice(files[0].length));
        for (const name of (/^License: *(.*)$/m.exec(stanza)?.[1] ?? "").split(/ (?:and|or|with) |, /)) {
            licences.add(name.trim());
        }
    }
    const texts = stanzas.filter((stanza) => licences.has(/^License: *(.*)$/m.exec(stanza)?.[1].trim())
        && !/^Files:/.test(stanza));
    return [...kept, ...texts].join("\n\n");
}

const whole = (path) => readFileSync(path, "utf8").trim();

export function notices(deps) {
    const parts = [
        ["SDL 2.26.5 (zlib licence)", whole(join(deps, "libsdl2/LICENSE.txt"))],
        ["Dear ImGui 1.90.1 (MIT licence)", whole(join(deps, "imgui/LICENSE.txt"))],
        ["stb_truetype, stb_rect_pack, stb_textedit, inside Dear ImGui (MIT licence or public domain)",
            tail(join(deps, "imgui/imstb_truetype.h"), "This software is available under 2 licenses")],
        ["Box2D 2.4.1 (MIT licence)", whole(join(deps, "box2d/LICENSE"))],
        ["NanoSVG (zlib licence)", headComment(join(deps, "libsdl2-image/nanosvg.h"))],
        ["JSON for Modern C++ (MIT licence)", whole(doc("nlohmann-json3-dev"))],
        ["Eigen 3.4 (Mozilla Public License 2.0). Only its MPL2 parts are used, unchanged; the source "
            + "is Debian's package eigen3.", whole(licence("MPL-2.0"))],
        ["Open Sans, cut to the letters used and without hints (Apache License 2.0)",
            whole(doc("fonts-open-sans")) + "\n\n" + whole(licence("Apache-2.0"))],
        ["The system libraries of Emscripten: musl, libc++, compiler-rt and their parts (MIT, NCSA and "
            + "BSD licences). What Debian's package emscripten records of them follows.",
            linkedIn(doc("emscripten"))],
    ];
    const line = "=".repeat(80);
    const text = parts.map(([title, body]) => `${line}\n${title}\n${line}\n\n${body}\n`);
    return "Loomwright is under the MIT licence. It contains the work of others, with our thanks:\n\n"
        + parts.map(([title]) => `  - ${title.split(" (")[0]}\n`).join("") + "\n" + text.join("\n");
}
