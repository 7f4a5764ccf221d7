// SPDX-License-Identifier: MIT
// The wall of tools, and the hook with the isolator's key. Upright at the right, or as a row under
// the board. What helps to see is in view_controls.cpp.
#include "bench/catalogue.h"
#include "screen/art/part_art.h"
#include "screen/kit/keep_clear.h"
#include "screen/kit/tones.h"
#include "screen/kit/widgets.h"
#include "screen/meter/art.h"
#include "screen/paper/plan_bench.h"
#include "screen/room/fixtures.h"
#include "screen/sentences.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace loom::screen {
namespace {

// What hangs on the wall, top to bottom. `picture` is its drawing under assets.
struct Hung {
    const char *name, *label, *said, *picture;
    std::optional<Tool> tool; // nothing: pressing it does something at once
};

constexpr int kHungCount = 7;

const std::array<Hung, kHungCount>& hung() {
    static const std::array<Hung, kHungCount> all{{
        {"rail/hand", "rail/hand", "rail/hand-said", "tools/hand", Tool::BareHand},
        {"rail/strip", "rail/strip", "rail/strip-said", "tools/strip", Tool::Strip},
        {"rail/driver", "rail/driver", "rail/driver-said", "tools/driver", Tool::Driver},
        {"rail/spanner", "rail/spanner", "rail/spanner-said", "tools/spanner", Tool::Spanner},
        {"rail/meter", "rail/meter", "rail/meter-said", "tools/meter", Tool::Meter},
        {"rail/marker", "rail/marker", "rail/marker-said", "tools/marker", Tool::Marker},
        {"rail/trace", "rail/trace", "rail/trace-said", "tools/trace", std::nullopt},
    }};
    return all;
}

struct Rail {
    const View& view;
    Items& items;
    const BoardUi& board;
    bool traceOpen;
    art::PictureStore& pictures;
    const Pen& pen;
    Asked& out;
    bool upright = true;

    bool isOut(const Hung& thing) const {
        if (!thing.tool) return traceOpen;
        if (*thing.tool == Tool::Meter) return view.session->attempt().bench().meter.has_value();
        return *thing.tool == board.tool;
    }

    // Letters under the picture when there is height for both.
    void tile(const Hung& thing, const Rect& at) const {
        const bool chosen = isOut(thing);
        const std::string said = words(thing.said);
        const Touch touch = items.add(
            thing.name, chosen ? words("spoken/chosen", {{"what", said}}) : said, Zone::Rail, at);
        if (chosen || touch.hot || touch.down)
            pen.list->AddRectFilled(at.min,
                                    at.max,
                                    chosen       ? tone::kToolChosen
                                    : touch.down ? tone::buttonDown
                                                 : tone::kRoomRaised,
                                    pen.px(9.0f));
        if (chosen)
            pen.list->AddRect(at.min, at.max, tone::kAttention, pen.px(9.0f), 0, pen.px(2.0f));
        const bool lettered = at.height() >= pen.px(60.0f);
        const float letters = lettered ? pen.px(20.0f) : 0.0f;
        const float side = std::min(pen.px(46.0f), at.height() - letters - pen.px(6.0f));
        pictures.drawFitted(pen.list,
                            thing.picture,
                            {at.centre().x, at.min.y + (at.height() - letters) * 0.5f},
                            side);
        if (lettered)
            pen.centredIn(
                Face::Bold,
                {{at.min.x, at.max.y - pen.px(23.0f)}, {at.max.x, at.max.y - pen.px(3.0f)}},
                tone::kOnRoom,
                words(thing.label));
        if (touch.focused) drawFocusRing(pen.list, shrunk(at, 3.0f), pen.px(9.0f));
        if (touch.clicked) use(thing);
    }

    // Where it hides least of what lies on the board: the lower left corner first, its probes at
    // its right.
    ImVec2 freePlaceForMeter() const {
        const Rect free = shrunk(clearBoard(view.layout), pen.px(10.0f));
        const float wide = pen.px(art::meter::kWidth + 92.0f), high = pen.px(art::meter::kHeight);
        Rect best;
        float least = -1.0f;
        for (int column = 0; column <= 6; ++column)
            for (const float down : {1.0f, 0.0f, 0.5f}) {
                const float along = static_cast<float>(column) / 6.0f;
                const Rect place = rectAt(free.min.x + along * (free.width() - wide),
                                          free.min.y + down * (free.height() - high),
                                          wide,
                                          high);
                const float hidden = hiddenOnBoard(items, place);
                if (least >= 0.0f && hidden >= least) continue;
                least = hidden;
                best = place;
            }
        return {best.min.x + pen.px(art::meter::kWidth) * 0.5f, best.centre().y};
    }

    void useMeter() const {
        if (view.session->attempt().bench().meter) {
            out.push_back(Do{bench::Edit{bench::HangMeter{}}});
            return;
        }
        const ImVec2 at = board.scene.board.toBoard(freePlaceForMeter());
        out.push_back(Do{bench::Edit{bench::PlaceMeter{{at.x, at.y}}}});
    }

    void use(const Hung& thing) const {
        if (!thing.tool) return out.push_back(ToggleTrace{});
        if (*thing.tool == Tool::Meter) return useMeter();
        if (*thing.tool == Tool::Marker && !planOf(*view.session))
            return out.push_back(Notice{words("rail/marker-none")});
        out.push_back(TakeTool{*thing.tool});
        if (*thing.tool == Tool::Marker) out.push_back(ShowSheet{});
    }
};

// The tool in use goes with the pointer over the board.
void drawInUse(const Rail& rail) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    const bool shown = !rail.view.touch && !holdsSomething(rail.board) &&
                       rail.view.layout.board.contains(at) && rail.items.over(at) == nullptr;
    if (rail.board.tool == Tool::BareHand || !shown) return;
    const float away = rail.pen.px(20.0f);
    for (const Hung& thing : hung())
        if (thing.tool == rail.board.tool)
            rail.pictures.drawFitted(
                rail.pen.list, thing.picture, {at.x + away, at.y + away}, rail.pen.px(34.0f));
}

enum class KeyPlace { NoIsolator, OnHook, InHand, InIsolator };

KeyPlace keyPlace(const bench::Bench& bench, const BoardUi& ui) {
    if (std::holds_alternative<KeyInHand>(ui.hand)) return KeyPlace::InHand;
    bool any = false;
    for (const bench::PartSlot& slot : bench.kit.parts)
        any = any || bench::isA(slot.kind, bench::PartClass::Isolator);
    for (const bench::Part& part : bench.parts) {
        if (!bench::isA(part, bench::PartClass::Isolator)) continue;
        if (part.position > 0) return KeyPlace::InIsolator;
        any = true;
    }
    return any ? KeyPlace::OnHook : KeyPlace::NoIsolator;
}

void drawHook(const Pen& pen, ImVec2 top) {
    pen.list->PathArcTo(top, pen.px(10.0f), 0.0f, 3.14159265f, 14);
    pen.list->PathStroke(tone::kBrass, 0, pen.px(4.0f));
    pen.list->AddCircleFilled({top.x - pen.px(10.0f), top.y}, pen.px(2.0f), tone::kBrass);
    pen.list->AddCircleFilled({top.x + pen.px(10.0f), top.y}, pen.px(2.0f), tone::kBrass);
}

// The dashed place says where the key is.
void drawKeyPlace(const Rail& rail, const Rect& at, const char* key) {
    const Pen& pen = rail.pen;
    drawDashedBox(pen.list, at, pen.px(9.0f), art::rgb(0x6b9096), 1.4f);
    const std::string text = words(key);
    std::string spoken = text;
    std::replace(spoken.begin(), spoken.end(), '\n', ' ');
    readable(pen, rail.items, "rail/key", spoken, Zone::Rail, at, pen.px(9.0f));
    const float pitch = pen.px(20.0f);
    const float room = at.width() - pen.px(6.0f);
    const std::string fitting = pen.cutWords(Face::Body, text, room);
    const auto lines = wrapped(pen.font(Face::Body), pen.size(Face::Body), room, fitting);
    float y = at.centre().y - pitch * 0.5f * static_cast<float>(lines.size() - 1);
    for (const std::string_view line : lines) {
        pen.centred(Face::Body, {at.centre().x, y}, tone::kOnRoomSoft, line);
        y += pitch;
    }
}

// The key on its hook: taken by a drag or a tap.
void drawKeyOnHook(const Rail& rail, const Rect& at) {
    const Pen& pen = rail.pen;
    const Touch touch = rail.items.add("rail/key", words("rail/key-on-hook"), Zone::Rail, at);
    if (touch.hot || touch.down)
        pen.list->AddRectFilled(at.min, at.max, tone::kRoomRaised, pen.px(9.0f));
    const float keyHeight = at.height() - pen.px(30.0f);
    const float scale = keyHeight / 0.072f;
    drawHook(pen, {at.centre().x + pen.px(2.0f), at.min.y + pen.px(4.0f)});
    art::drawKey(
        pen.list, {at.centre().x, at.min.y + pen.px(6.0f) + keyHeight * 0.5f}, scale, 0.08f);
    pen.centredIn(Face::Body,
                  {{at.min.x, at.max.y - pen.px(20.0f)}, at.max},
                  tone::kOnRoom,
                  words("rail/key"));
    if (touch.focused) drawFocusRing(pen.list, shrunk(at, 3.0f), pen.px(9.0f));
    const ImGuiIO& io = ImGui::GetIO();
    const float moved = std::hypot(io.MousePos.x - io.MouseClickedPos[0].x,
                                   io.MousePos.y - io.MouseClickedPos[0].y);
    if (touch.down && moved > 8.0f) {
        rail.items.letGo();
        rail.out.push_back(PickUp{KeyInHand{}, true});
    } else if (touch.clicked) {
        rail.out.push_back(PickUp{KeyInHand{}, false});
    }
}

void drawKeyCorner(const Rail& rail, const Rect& at) {
    switch (keyPlace(rail.view.session->attempt().bench(), rail.board)) {
    case KeyPlace::NoIsolator:
        return;
    case KeyPlace::OnHook:
        return drawKeyOnHook(rail, at);
    case KeyPlace::InHand:
        return drawKeyPlace(rail, at, "rail/key-in-hand");
    case KeyPlace::InIsolator:
        return drawKeyPlace(rail, at, "rail/key-in-isolator");
    }
}

} // namespace

void drawRail(const View& view,
              Items& items,
              const BoardUi& board,
              bool traceOpen,
              art::PictureStore& pictures,
              ImDrawList* list,
              Asked& out) {
    const Pen pen(view, list);
    const Rect& wall = view.layout.rail;
    drawPanel(list, wall, pen.px(10.0f));
    const bool upright = wall.height() > wall.width();
    const Rail rail{view, items, board, traceOpen, pictures, pen, out, upright};
    drawInUse(rail);
    const float pad = pen.px(4.0f), gap = pen.px(4.0f);
    if (upright) {
        const float keyHeight = std::min(pen.px(116.0f), wall.height() * 0.2f);
        const float room = wall.height() - 3.0f * pad - keyHeight;
        const float high = std::min(pen.px(80.0f), room / kHungCount - gap);
        float y = wall.min.y + pad;
        for (const Hung& thing : hung()) {
            rail.tile(thing, rectAt(wall.min.x + pad, y, wall.width() - 2.0f * pad, high));
            y += high + gap;
        }
        return drawKeyCorner(rail,
                             {{wall.min.x + pad, wall.max.y - pad - keyHeight},
                              {wall.max.x - pad, wall.max.y - pad}});
    }
    const float wide = (wall.width() - 2.0f * pad + gap) / (kHungCount + 1) - gap;
    float x = wall.min.x + pad;
    for (const Hung& thing : hung()) {
        rail.tile(thing, rectAt(x, wall.min.y + pad, wide, wall.height() - 2.0f * pad));
        x += wide + gap;
    }
    drawKeyCorner(
        rail, {{wall.max.x - pad - wide, wall.min.y + pad}, {wall.max.x - pad, wall.max.y - pad}});
}

} // namespace loom::screen
