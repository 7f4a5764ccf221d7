// SPDX-License-Identifier: MIT
// The Plan leaf: the wiring plan as a drawing or a list, the chosen cable's row under it, and the
// walk round the connector block, position by position.
#include "screen/paper/plan_leaf.h"

#include "bench/catalogue.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

constexpr float kLeastForDrawing = 480.0f, kTakeButton = 150.0f;

// The walk goes round the first block of the plan.
const plan::PlanPart* blockOf(const plan::Plan& plan) {
    for (const plan::PlanPart& part : plan.parts)
        if (bench::isA(part.kind, bench::PartClass::Block)) return &part;
    return nullptr;
}

int waysOf(const bench::PartSpec& spec) {
    int ways = 0;
    for (const bench::TerminalSpec& terminal : spec.terminals)
        ways = std::max(ways, terminal.node + 1);
    return ways;
}

bool isOn(const plan::Spot& spot, const std::string& ref, int way) {
    if (spot.ref != ref) return false;
    for (const bench::TerminalSpec& terminal : bench::firstOf(bench::PartClass::Block).terminals)
        if (spot.terminal == terminal.word) return terminal.node == way;
    return false;
}

// What belongs on a way, and how many ends are there; not which, before the check.
RowWords wayWords(const Leaf& leaf, const plan::Plan& plan, const std::string& ref, int way) {
    const bench::PartSpec& spec = bench::firstOf(bench::PartClass::Block);
    std::string belongs;
    int wanted = 0, there = 0;
    for (const plan::PlanCable& cable : plan.cables)
        for (int end = 0; end < 2; ++end) {
            if (!isOn(end == 0 ? cable.from : cable.to, ref, way)) continue;
            ++wanted;
            if (!belongs.empty()) belongs += words("list/comma");
            belongs += words("walk/cable",
                             {{"cable", cable.label},
                              {"place", placeOf(plan, end == 0 ? cable.to : cable.from)}});
        }
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    if (const bench::Part* block = bench::findPart(bench, ref))
        for (std::uint8_t i = 0; i < spec.terminals.size(); ++i)
            if (spec.terminals[i].node == way)
                there += static_cast<int>(bench::endsAt(bench, {block->id, i}).size());
    RowWords out;
    out.title = words("walk/title",
                      {{"part", ref},
                       {"position", std::to_string(way + 1)},
                       {"of", std::to_string(waysOf(spec))}});
    out.make = wanted == 0 ? words("walk/nothing") : words("walk/belongs", {{"cables", belongs}});
    out.last =
        words("walk/there", {{"there", std::to_string(there)}, {"wanted", std::to_string(wanted)}});
    return out;
}

// The board follows the walk to the way's upper hole.
void goToWay(const Leaf& leaf, const std::string& ref, int way) {
    leaf.ui.plan.walk = way;
    leaf.ui.plan.row.reset();
    leaf.ui.planCable.clear();
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    const bench::Part* block = bench::findPart(bench, ref);
    if (!block) return;
    const bench::PartSpec& spec = bench::firstOf(bench::PartClass::Block);
    for (std::uint8_t i = 0; i < spec.terminals.size(); ++i)
        if (spec.terminals[i].node == way) {
            const bench::TerminalRef hole{block->id, i};
            return chooseOnBoard(leaf, hole);
        }
}

void drawWalk(const Leaf& leaf, const Rect& at, const RowWords& said, const std::string& ref) {
    const Pen& pen = leaf.pen;
    const StripBox box = drawStrip(leaf, at, "walk/said", said, pen.px(kWalkButtons), 1);
    const int ways = waysOf(bench::firstOf(bench::PartClass::Block)), way = *leaf.ui.plan.walk;
    const float gap = pen.px(8.0f), wide = (box.buttons.width() - 2.0f * gap) / 3.0f;
    const auto place = [&](int i) {
        return rectAt(box.buttons.min.x + static_cast<float>(i) * (wide + gap),
                      box.buttons.min.y,
                      wide,
                      pen.px(44.0f));
    };
    const auto paper = [&](const char* name, const char* key, int i, bool enabled) {
        return button(
            pen, leaf.items, name, words(key), Zone::Paper, place(i), ButtonLook::Paper, enabled);
    };
    if (paper("walk/end", "walk/end", 0, true)) leaf.ui.plan.walk.reset();
    if (paper("walk/back", "walk/back", 1, way > 0)) goToWay(leaf, ref, way - 1);
    if (button(pen,
               leaf.items,
               "walk/next",
               words(way + 1 < ways ? "walk/next" : "walk/end"),
               Zone::Paper,
               place(2),
               ButtonLook::Main)) {
        if (way + 1 < ways)
            goToWay(leaf, ref, way + 1);
        else
            leaf.ui.plan.walk.reset();
    }
}

struct Tool {
    const char* name;
    std::string shown;
};

std::vector<Tool> toolsFor(const Leaf& leaf, bool asDrawing, const plan::PlanPart* block) {
    const PlanUi& ui = leaf.ui.plan;
    std::vector<Tool> tools;
    tools.push_back(asDrawing ? Tool{"paper/rows", words("plan/as-rows")}
                              : Tool{"paper/drawing", words("plan/as-drawing")});
    if (ui.leaf == PaperLeaf::Plan && block && !ui.walk)
        tools.push_back({"paper/walk", words("plan/walk", {{"part", block->ref}})});
    tools.push_back({"paper/print", words("plan/print")});
    if (ui.leaf == PaperLeaf::Sheet) tools.push_back({"sheet/hand-in", words("sheet/hand-in")});
    return tools;
}

void useTool(const Leaf& leaf, const std::string& name, const plan::Plan& plan) {
    PlanUi& ui = leaf.ui.plan;
    if (name == "paper/rows") ui.asRows = true;
    if (name == "paper/drawing") {
        ui.asRows = false;
        ui.wide = leaf.view.layout.form == Form::Wide;
    }
    if (name == "paper/walk") goToWay(leaf, blockOf(plan)->ref, 0);
    if (name == "paper/print")
        leaf.out.push_back(Print{ui.leaf == PaperLeaf::Sheet ? "sheet" : "all"});
    if (name == "sheet/hand-in") askToHandIn(leaf, plan);
}

// Buttons over the drawing or the list; returns the height they take.
float drawTools(const Leaf& leaf, const Rect& area, bool asDrawing, const plan::Plan& plan) {
    const Pen& pen = leaf.pen;
    float x = area.min.x, y = area.min.y;
    for (const Tool& tool : toolsFor(leaf, asDrawing, blockOf(plan))) {
        const float wide = buttonWidth(pen, tool.shown);
        if (x > area.min.x && x + wide > area.max.x) {
            x = area.min.x;
            y += pen.px(50.0f);
        }
        const Rect at = rectAt(x, y, wide, pen.px(44.0f));
        x += wide + pen.px(8.0f);
        if (button(pen, leaf.items, tool.name, tool.shown, Zone::Paper, at, ButtonLook::Paper))
            useTool(leaf, tool.name, plan);
    }
    return y + pen.px(50.0f) - area.min.y;
}

std::vector<RowLook> looksOf(const Leaf& leaf, const plan::Plan& plan) {
    std::vector<RowLook> out;
    for (const RowOnBench& each : rowsOnBench(plan, leaf.view.session->attempt().bench()))
        out.push_back({each.laid, attempt::SheetMark::None, false});
    return out;
}

// Not on the bench yet, and the tray has it ready made.
bool waits(const Leaf& leaf, const plan::Plan& plan, const PlanPicture& picture, std::size_t row) {
    if (picture.looks[row].laid != Laid::No) return false;
    const bench::Bench& bench = leaf.view.session->attempt().bench();
    for (const bench::CableSlot& slot : bench.kit.readyMade)
        if (slot.label == plan.cables[row].label && !bench::isOut(bench, slot)) return true;
    return false;
}

// The chosen row if it waits in the tray, else the next one that does.
std::optional<std::size_t>
nextToLay(const Leaf& leaf, const plan::Plan& plan, const PlanPicture& picture) {
    if (holdsSomething(leaf.board)) return std::nullopt;
    const std::size_t all = plan.cables.size(), first = leaf.ui.plan.row.value_or(0);
    for (std::size_t i = 0; i < all; ++i)
        if (waits(leaf, plan, picture, (first + i) % all)) return (first + i) % all;
    return std::nullopt;
}

// The cable comes into the hand, and the paper out of the way.
void takeFromTray(const Leaf& leaf, const plan::Plan& plan, std::size_t row) {
    leaf.ui.plan.wide = false;
    leaf.ui.pulledIn = false;
    leaf.out.push_back(LookAt{});
    chooseRow(leaf, plan, row);
    leaf.out.push_back(PickUp{ReadyMade{plan.cables[row].label}});
}

// Where a fault is hidden, a cable of the plan that is not on the bench may be what is wrong.
bool canBeNamed(const Leaf& leaf, const PlanPicture& picture) {
    const auto& row = leaf.ui.plan.row;
    return row && *row < picture.looks.size() && picture.looks[*row].laid == Laid::No &&
           leaf.job.exercise && !leaf.job.exercise->faults.empty();
}

// What can be done with the chosen row.
struct RowActions {
    std::optional<std::size_t> take; // this row, out of the tray
    bool name = false;               // the chosen one as the fault

    int count() const { return (take ? 1 : 0) + (name ? 1 : 0); }
};

void drawChosen(const Leaf& leaf,
                const Rect& at,
                const RowWords& said,
                const plan::Plan& plan,
                const RowActions& actions) {
    const Pen& pen = leaf.pen;
    const float wide = actions.count() > 0 ? pen.px(kTakeButton) : 0.0f;
    const StripBox box = drawStrip(leaf, at, "plan/chosen", said, wide, actions.count());
    float y = box.buttons.min.y;
    const auto pressed = [&](const char* name, const std::string& label, ButtonLook look) {
        const Rect place = rectAt(box.buttons.min.x, y, box.buttons.width(), pen.px(44.0f));
        y += pen.px(52.0f);
        return button(pen, leaf.items, name, label, Zone::Paper, place, look);
    };
    if (actions.name) {
        const std::string& label = plan.cables[*leaf.ui.plan.row].label;
        if (pressed("plan/fault", words("card/fault", {{"name", label}}), ButtonLook::Paper))
            leaf.out.push_back(Do{attempt::NameFault{label, -1}});
    }
    if (!actions.take) return;
    const std::string label = words("plan/take", {{"cable", plan.cables[*actions.take].label}});
    if (pressed("plan/take", label, ButtonLook::Main)) takeFromTray(leaf, plan, *actions.take);
}

} // namespace

std::optional<std::size_t>
drawPlanBody(const Leaf& leaf, const Rect& area, const PlanPicture& picture) {
    const Pen& pen = leaf.pen;
    const bool roomy = area.width() >= pen.px(kLeastForDrawing);
    const bool asDrawing = roomy && !leaf.ui.plan.asRows;
    std::optional<std::size_t> touched, listed;
    Rect rows = area;
    if (asDrawing) {
        const float spare = pen.px(8.0f);
        Rect canvas{{area.min.x - spare, area.min.y}, {area.max.x + spare, area.max.y}};
        const float wanted = planHeight(pen, canvas.width());
        // Where much is left under the drawing, the list goes there.
        const bool both = area.height() - wanted > pen.px(170.0f);
        if (both) canvas.max.y = canvas.min.y + wanted;
        touched = drawPlanCanvas(leaf, canvas, picture);
        drawTools(leaf, {{area.min.x, area.min.y}, area.max}, true, picture.plan);
        if (!both) return touched;
        rows.min.y = canvas.max.y + pen.px(6.0f);
    } else {
        rows.min.y += drawTools(leaf, area, false, picture.plan);
    }
    Stack stack(rows.width());
    PlanPicture listedPicture = picture;
    if (asDrawing) listedPicture.itemPrefix = "row/"; // the drawing's labels have the names already
    addRows(leaf, stack, listedPicture, listed);
    drawColumn(leaf, rows, stack);
    return listed ? listed : touched;
}

void drawPlanLeaf(const Leaf& leaf, const Rect& whole) {
    const plan::Plan* plan = planOf(*leaf.view.session);
    if (!plan) return;
    const Pen& pen = leaf.pen;
    PlanUi& ui = leaf.ui.plan;
    const Rect area{{whole.min.x, whole.min.y + pen.px(6.0f)},
                    {whole.max.x, whole.max.y - pen.px(8.0f)}};
    PlanPicture picture{*plan, cacheOf(leaf, *plan).drawing, looksOf(leaf, *plan), ui.row, ui.walk};
    const plan::PlanPart* block = blockOf(*plan);
    if (!block) ui.walk.reset();
    RowWords said;
    if (ui.walk)
        said = wayWords(leaf, *plan, block->ref, *ui.walk);
    else if (ui.row && *ui.row < plan->cables.size())
        said = rowWords(*plan, *ui.row, picture.looks[*ui.row].laid);
    else
        said.make = words("plan/touch");
    if (const auto* held = std::get_if<ReadyMade>(&leaf.board.hand);
        held && ui.row && held->label == plan->cables[*ui.row].label)
        said.last = words("plan/in-hand");
    const RowActions actions{nextToLay(leaf, *plan, picture), canBeNamed(leaf, picture)};
    const float buttons = ui.walk               ? pen.px(kWalkButtons)
                          : actions.count() > 0 ? pen.px(kTakeButton)
                                                : 0.0f;
    const int buttonRows = ui.walk ? 1 : actions.count();
    const float high = std::max(stripHeight(leaf, area.width(), said, buttons, buttonRows),
                                area.width() >= pen.px(kLeastForDrawing) ? pen.px(98.0f) : 0.0f);
    const Rect strip{{area.min.x, area.max.y - high}, area.max};
    const auto touched =
        drawPlanBody(leaf, {area.min, {area.max.x, strip.min.y - pen.px(8.0f)}}, picture);
    if (ui.walk)
        drawWalk(leaf, strip, said, block->ref);
    else
        drawChosen(leaf, strip, said, *plan, actions);
    if (!touched) return;
    ui.walk.reset();
    chooseRow(leaf, *plan, *touched);
}

} // namespace loom::screen
