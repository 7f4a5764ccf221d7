// Serves a folder on this computer only. As a program: node web/serve.mjs [--port N] [--root DIR].
// As a module: serve(root, port) resolves to {port, close}; port 0 takes any free one.
// A file that lies there compressed too is sent so to a browser that takes it.
import { createReadStream, statSync } from "node:fs";
import { createServer } from "node:http";
import { dirname, extname, join, normalize, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

const types = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".wasm": "application/wasm",
    ".json": "application/json",
    ".webmanifest": "application/manifest+json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".txt": "text/plain; charset=utf-8",
};

// Content encodings, the best first, and the ending of a file that is compressed so.
export const encodings = { br: ".br", gzip: ".gz" };

// Whether a request's Accept-Encoding takes an encoding (RFC 9110, 12.5.3; q=0 is a refusal).
function takes(accepted, encoding) {
    return String(accepted ?? "").toLowerCase().split(",").some((entry) => {
        const [name, ...parameters] = entry.split(";").map((part) => part.trim());
        const weight = parameters.find((parameter) => parameter.startsWith("q="));
        return name === encoding && (weight === undefined || Number(weight.slice(2)) > 0);
    });
}

// The compressed copy of a file that the request takes: {file, size, encoding}, or the file itself.
function compressedCopy(found, accepted) {
    for (const [encoding, ending] of Object.entries(encodings)) {
        if (!takes(accepted, encoding)) continue;
        const file = found.file + ending;
        const status = statSync(file, { throwIfNoEntry: false });
        if (status) return { file, size: status.size, encoding };
    }
    return found;
}

// The file a request names, or null when there is none or it lies outside root.
function fileFor(root, url) {
    let path;
    try {
        path = decodeURIComponent(new URL(url, "http://localhost").pathname);
    } catch {
        return null;
    }
    let file = normalize(join(root, path));
    if (file !== root && !file.startsWith(root + sep)) return null;
    try {
        if (statSync(file).isDirectory()) file = join(file, "index.html");
        return { file, size: statSync(file).size };
    } catch {
        return null;
    }
}

export function serve(root, port) {
    root = resolve(root);
    const server = createServer((request, response) => {
        const found = fileFor(root, request.url);
        if (!found || (request.method !== "GET" && request.method !== "HEAD")) {
            response.writeHead(404, { "Content-Type": "text/plain" });
            response.end("There is nothing here.\n");
            return;
        }
        const sent = compressedCopy(found, request.headers["accept-encoding"]);
        response.writeHead(200, {
            "Content-Type": types[extname(found.file)] ?? "application/octet-stream",
            "Content-Length": sent.size,
            "Cache-Control": "no-cache",
            "Vary": "Accept-Encoding",
            ...(sent.encoding && { "Content-Encoding": sent.encoding }),
        });
        if (request.method === "HEAD") response.end();
        else createReadStream(sent.file).pipe(response);
    });
    return new Promise((done, refused) => {
        server.on("error", refused);
        server.listen(port, "127.0.0.1", () =>
            done({
                port: server.address().port,
                close: () => {
                    server.close();
                    server.closeAllConnections?.();
                },
            }));
    });
}

async function main() {
    const option = (name, usual) => {
        const at = process.argv.indexOf(name);
        return at > 0 ? process.argv[at + 1] : usual;
    };
    const here = dirname(fileURLToPath(import.meta.url));
    const port = Number(option("--port", 8024));
    try {
        await serve(option("--root", join(here, "../build/site")), port);
    } catch (error) {
        if (error.code === "EADDRINUSE") {
            console.error(`web/run: port ${port} is in use by another program. ` +
                `Stop that program, or choose another port: web/run --port ${port + 1}`);
        } else if (error.code === "EACCES") {
            console.error(`web/run: port ${port} needs root. Choose one above 1023.`);
        } else {
            console.error(`web/run: cannot serve on port ${port}: ${error.message}`);
        }
        process.exit(1);
    }
    console.log(`Loomwright is at http://127.0.0.1:${port}/`);
    console.log("Press Ctrl-C to stop.");
    for (const signal of ["SIGINT", "SIGTERM"]) {
        process.on(signal, () => process.exit(0));
    }
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) main();
