// The page around the bench: it loads, says so when it cannot, and works without a network.
import { benchTest, check } from "./harness.mjs";

const loadingIsGone = () => document.getElementById("loading").hidden;

benchTest("the bench opens and draws", async (page) => {
    await page.open();
    await page.shot("opened");
    check.that(await page.page.evaluate(loadingIsGone), "the loading panel is gone");
    check.equal(await page.page.evaluate(() => document.activeElement.id), "canvas", "focus is on the bench");
    check.that(await page.page.evaluate(() => performance.getEntriesByName("loom-first-frame").length === 1),
        "the first frame is marked once");
});

async function openWith(page, script) {
    await page.page.addInitScript(script);
    const base = await page.siteAddress();
    await page.page.goto(base);
    await page.page.waitForFunction(() =>
        document.getElementById("loading").getAttribute("role") === "alert");
    return page.page.textContent("#loading-line");
}

benchTest("a browser without WebAssembly is told so", async (page) => {
    const text = await openWith(page, "delete window.WebAssembly");
    check.that(text.includes("no WebAssembly"), "the sentence names what is missing", text);
    await page.shot("no-webassembly");
});

benchTest("a browser without WebGL is told so", async (page) => {
    const text = await openWith(page, "HTMLCanvasElement.prototype.getContext = () => null");
    check.that(text.includes("WebGL is missing"), "the sentence names what is missing", text);
});

benchTest("a second visit works without a network", async (page) => {
    const base = await page.siteAddress();
    await page.page.goto(base);
    await page.page.waitForFunction(loadingIsGone); // what the first visit loads is its own affair
    // Not by waitForFunction: it takes the promise of an async question for a yes.
    await page.page.evaluate(async () => {
        const worker = (await navigator.serviceWorker.ready).active;
        const ready = () => worker.state === "activated" && navigator.serviceWorker.controller;
        while (!ready()) await new Promise((next) => requestAnimationFrame(next));
    });
    await page.browser.context.setOffline(true);
    await page.page.goto(base + "?lesson=none");
    await page.page.waitForFunction(loadingIsGone);
});

benchTest("the program comes compressed to a browser that takes it, and whole to one that does not", async (page) => {
    await page.open();
    const [program] = await page.page.evaluate(() => performance.getEntriesByType("resource")
        .filter((entry) => entry.name.includes("loomwright.wasm"))
        .map(({ encodedBodySize, decodedBodySize }) => ({ encodedBodySize, decodedBodySize })));
    check.that(program.encodedBodySize < program.decodedBodySize / 2, "less than half is sent", program);
    const ask = (accepted) => page.page.request.get(page.siteAddress() + "loomwright.wasm",
        { headers: { "Accept-Encoding": accepted } });
    const sent = async (accepted) => (await ask(accepted)).headers()["content-encoding"] ?? "as it is";
    check.equal(await sent("gzip, deflate, br"), "br", "the smaller of two");
    check.equal(await sent("gzip;q=0.5, br;q=0"), "gzip", "what is not refused");
    check.equal(await sent("identity"), "as it is", "no encoding that was not asked for");
    check.equal((await (await ask("br")).body()).length, program.decodedBodySize, "unpacked it is the same");
});
