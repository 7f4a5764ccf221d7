// SPDX-License-Identifier: MIT
// Name, whether the bench is live or safe in words, and the buttons that are always there.
#include "bench/catalogue.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/room/fixtures.h"
#include "screen/sentences.h"

#include <algorithm>

namespace loom::screen {
namespace {

const bench::Part* isolatorOf(const bench::Bench& bench) {
    const bench::Part* found = nullptr;
    for (const bench::Part& part : bench.parts) {
        if (!bench::isA(part, bench::PartClass::Isolator)) continue;
        if (!found || part.position > found->position) found = &part;
    }
    return found;
}

std::string isolatorWords(const bench::Part* isolator) {
    if (!isolator) return "";
    switch (isolator->position) {
    case 0:
        return words("status/key-out");
    case 1:
        return words("status/isolator-off");
    default:
        return words("status/isolator-on");
    }
}

// What the status says, the most important first; what does not fit is left out from the end of
// `order`, the smallest number staying longest.
struct Saying {
    std::string text;
    int order = 0;
};

std::vector<Saying> sayings(const bench::Bench& bench, const attempt::Supply& supply) {
    const std::string isolator = isolatorWords(isolatorOf(bench));
    std::vector<Saying> out;
    if (!supply.live) {
        if (!isolator.empty()) out.push_back({isolator, 0});
        if (!supply.batteryOut)
            out.push_back({words("status/no-battery"), 1});
        else if (isolator.empty())
            out.push_back({words("status/nothing-fed"), 1});
        return out;
    }
    if (!isolator.empty()) out.push_back({isolator, 2});
    out.push_back({amount(supply.voltage_V, "V"), 0});
    if (supply.current_A >= 0.5e-3)
        out.push_back(
            {words("status/from-batteries", {{"current", amount(supply.current_A, "A")}}), 1});
    else
        out.push_back({words("status/no-current"), 1});
    return out;
}

std::string joined(const std::vector<Saying>& parts) {
    std::string out;
    for (const Saying& part : parts)
        out += (out.empty() ? "" : " · ") + part.text;
    return out;
}

std::string fittingWords(const Pen& pen, std::vector<Saying> parts, float room) {
    while (parts.size() > 1 && pen.width(Face::Body, joined(parts)) > room) {
        parts.erase(
            std::max_element(parts.begin(), parts.end(), [](const Saying& l, const Saying& r) {
                return l.order < r.order;
            }));
    }
    return pen.cut(Face::Body, joined(parts), room);
}

// Full and glowing when live, an empty ring when safe.
void drawLamp(const Pen& pen, ImVec2 at, bool live) {
    const float r = pen.px(7.5f);
    if (!live) {
        pen.list->AddCircle(at, r, tone::kOnRoomSoft, 0, pen.px(2.2f));
        return;
    }
    for (int ring = 3; ring >= 1; --ring)
        pen.list->AddCircleFilled(
            at, r + pen.px(2.5f) * static_cast<float>(ring), art::fade(tone::kLampLight, 0.09f));
    pen.list->AddCircleFilled(at, r, tone::kFault);
    pen.list->AddCircleFilled({at.x - r * 0.15f, at.y - r * 0.15f}, r * 0.55f, tone::kLampLight);
}

void drawStatus(const View& view, Items& items, const Pen& pen) {
    const attempt::Attempt& attempt = view.session->attempt();
    const attempt::Supply supply = attempt.supply();
    const Rect& pill = view.layout.status;
    const float middle = pill.centre().y;
    drawPanel(pen.list, pill, pill.height() * 0.5f);
    drawLamp(pen, {pill.min.x + pen.px(26.0f), middle}, supply.live);

    const std::string word = words(supply.live ? "status/live" : "status/safe");
    const float wordAt = pill.min.x + pen.px(44.0f);
    pen.left(Face::Bold, {wordAt, middle}, supply.live ? tone::kLiveWord : tone::kOnRoom, word);
    const float restAt = wordAt + pen.width(Face::Bold, word) + pen.px(10.0f);
    const std::vector<Saying> parts = sayings(attempt.bench(), supply);
    pen.left(Face::Body,
             {restAt, middle},
             tone::kOnRoom,
             fittingWords(pen, parts, pill.max.x - pen.px(16.0f) - restAt));
    readable(pen,
             items,
             "header/status",
             word + ": " + joined(parts),
             Zone::Header,
             pill,
             pill.height() * 0.5f);
}

void drawButtons(const View& view, Items& items, const Pen& pen, Asked& out) {
    const attempt::Attempt& attempt = view.session->attempt();
    const Rect& all = view.layout.buttons;
    const float gap = pen.px(8.0f), width = (all.width() - 2.0f * gap) / 3.0f;
    const auto place = [&](int index) {
        const float x = all.min.x + (width + gap) * static_cast<float>(index);
        return rectAt(x, all.min.y, width, all.height());
    };
    const auto asked = [&](int index, const char* name, const char* key, bool enabled) {
        return button(
            pen, items, name, words(key), Zone::Header, place(index), ButtonLook::Room, enabled);
    };
    if (asked(0, "header/undo", "header/undo", attempt.canUndo())) out.push_back(UndoStep{});
    if (asked(1, "header/redo", "header/redo", attempt.canRedo()))
        out.push_back(Do{attempt::Redo{}});
    if (asked(2, "header/help", "header/help", true)) out.push_back(ToggleHelp{});
}

} // namespace

void drawHeader(const View& view, Items& items, ImDrawList* list, Asked& out) {
    const Pen pen(view, list);
    if (view.layout.form == Form::Wide)
        pen.left(Face::Large,
                 {view.layout.name.min.x, view.layout.name.centre().y},
                 tone::kOnRoom,
                 words("product"));
    drawStatus(view, items, pen);
    drawButtons(view, items, pen, out);
}

} // namespace loom::screen
