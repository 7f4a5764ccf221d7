// Three pairs of hands that do the same things to the bench: by pointer, by finger, by keys alone.
// Each wires from terminal to terminal by name, as a learner would:
//
//   const hands = new PointerHands(page);
//   await hands.lay("B1", [0.15, 0.55]);
//   await hands.wire("B1/plus", "F3/in");

// [x, y] in CSS pixels of a place on the board in metres.
export async function onBoard(page, [x_m, y_m]) {
    const { boardView } = await page.probe("boardView");
    return [boardView.x + x_m * boardView.px_per_m, boardView.y + y_m * boardView.px_per_m];
}

async function partIsOut(page, ref) {
    await page.waitFor((p, wanted) => p.bench.parts.some((part) => part.ref === wanted),
        `${ref} lies on the bench`, ref);
}

// The tray's groups in the order of their tabs: tap the tab first, as a learner would, so that the
// slot has slid into sight.
const groupOf = (name) => (name.startsWith("tray/blade") || name.startsWith("tray/strip") ? 1
    : name.startsWith("tray/cable") ? 2 : name.startsWith("tray/reel") ? 3 : 0);

async function bringIntoSight(hands, name) {
    const tab = `tray/to/${groupOf(name)}`;
    const { rects } = await hands.page.probe("rects");
    if (!name.startsWith("tray/") || !rects[tab]) return;
    await hands.tapAt(await hands.page.pointOf(tab));
    await atRest(hands.page, name);
}

// A slot that slides is aimed at only once it stands still.
async function atRest(page, name) {
    let last = null;
    for (;;) {
        const now = JSON.stringify(await page.rectOf(name));
        if (now === last) return;
        last = now;
        await page.frame();
    }
}

async function cableCount(page) {
    return (await page.probe("bench")).bench.cables.length;
}

async function oneMoreCable(page, before, what) {
    await page.waitFor((p, count) => p.bench.cables.length === count + 1, what, before);
}

export class PointerHands {
    constructor(page) {
        this.page = page;
    }

    async lay(ref, place) {
        await bringIntoSight(this, `tray/${ref}`);
        await this.page.drag(`tray/${ref}`, await onBoard(this.page, place));
        await partIsOut(this.page, ref);
    }

    async wire(from, to) {
        const before = await cableCount(this.page);
        await this.page.drag(`terminal/${from}`, `terminal/${to}`);
        await oneMoreCable(this.page, before, `a cable from ${from} to ${to}`);
    }

    async choose(name) {
        await bringIntoSight(this, name);
        await this.page.tap(name);
    }

    // A blade dragged out of the tray onto its holder.
    async fit(blade, ref) {
        await bringIntoSight(this, `tray/${blade}`);
        await this.page.drag(`tray/${blade}`, `part/${ref}`);
    }

    async tapAt(point) {
        await this.page.tap(point);
    }

    async hold(place) {
        await this.page.press(place);
    }

    async letGo() {
        await this.page.release();
    }
}

export class TouchHands {
    constructor(page) {
        this.page = page;
    }

    async lay(ref, place) {
        await bringIntoSight(this, `tray/${ref}`);
        await this.page.touchDrag(`tray/${ref}`, await onBoard(this.page, place));
        await partIsOut(this.page, ref);
    }

    async wire(from, to) {
        const before = await cableCount(this.page);
        await this.page.touchDrag(`terminal/${from}`, `terminal/${to}`);
        await oneMoreCable(this.page, before, `a cable from ${from} to ${to}`);
    }

    async choose(name) {
        await bringIntoSight(this, name);
        await this.page.touchTap(name);
    }

    async fit(blade, ref) {
        await bringIntoSight(this, `tray/${blade}`);
        await this.page.touchDrag(`tray/${blade}`, `part/${ref}`);
    }

    async tapAt(point) {
        await this.page.touchTap(point);
    }

    async hold(place) {
        await this.page.touchPress(place);
    }

    async letGo() {
        await this.page.touchRelease();
    }
}

// Walks the focus with Tab and the arrows only; never touches a pointer.
export class KeyHands {
    constructor(page) {
        this.page = page;
    }

    // Moves the focus to a named item: Tab until its zone, then arrows towards it.
    async focus(name) {
        for (let step = 0; step < 120; ++step) {
            const { focused, rects, zones } = await this.page.probe("focused", "rects", "zones");
            if (focused === name) return;
            if (!focused || zones[focused] !== zones[name]) {
                await this.page.key("Tab");
                continue;
            }
            await this.page.key(this.towards(rects[focused], rects[name], step));
        }
        throw new Error(`the keys never reached ${name}`);
    }

    towards(from, to, step) {
        const dx = to[0] + to[2] / 2 - from[0] - from[2] / 2;
        const dy = to[1] + to[3] / 2 - from[1] - from[3] / 2;
        const sideways = dx < 0 ? "ArrowLeft" : "ArrowRight";
        const upright = dy < 0 ? "ArrowUp" : "ArrowDown";
        const mostlySideways = Math.abs(dx) > Math.abs(dy);
        // Now and then the other way first, so that a walk does not go to and fro for ever.
        return mostlySideways !== (step % 7 === 6) ? sideways : upright;
    }

    async lay(ref) {
        await this.focus(`tray/${ref}`);
        await this.page.key("Enter");
        await partIsOut(this.page, ref);
    }

    async wire(from, to) {
        const before = await cableCount(this.page);
        await this.focus(`terminal/${from}`);
        await this.page.key("Enter");
        await this.focus(`terminal/${to}`);
        await this.page.key("Enter");
        await oneMoreCable(this.page, before, `a cable from ${from} to ${to}`);
    }

    async choose(name) {
        await this.focus(name);
        await this.page.key("Enter");
    }

    async fit(blade, ref) {
        await this.choose(`tray/${blade}`);
        await this.choose(`part/${ref}`);
    }
}
